package cable

import (
	"strconv"
	"strings"
)

// Group is a number of equal conductors or cables in a raceway.
type Group struct {
	Count int
	Item  Item
}

const mostItems = 100_000

// ParseGroup reads a group of conductors or cables:
//
//	22x14AWG:THHN           single conductors: count, size, insulation
//	4x6.1mm                 cables by outside diameter, mm or in
//	2x4.8x9.0mm             oval cables
//	4x6.1mm:communications  the circuit: class2 or communications
//	3x18/4                  a generic cable of Cables
//
// The multiplication sign × may stand for x. A cable without a circuit is left
// so; Fill then takes it as class 2 and says so.
func ParseGroup(s string) (Group, error) {
	bad := func(why string) (Group, error) { return Group{}, &InputError{"conductors or cables", s, why} }
	text := strings.ReplaceAll(strings.TrimSpace(s), "×", "x")
	number, what, ok := strings.Cut(text, "x")
	if !ok {
		return bad("must be a count, x, and what it counts, such as 22x14AWG:THHN or 4x6.1mm")
	}
	count, err := strconv.ParseUint(strings.TrimSpace(number), 10, 32)
	if err != nil || count < 1 || count > mostItems {
		return bad("count must be a whole number from 1 to 100000")
	}
	item, err := parseItem(s, strings.TrimSpace(what))
	return Group{int(count), item}, err
}

func parseItem(given, what string) (Item, error) {
	bad := func(why string) (Item, error) { return Item{}, &InputError{"conductors or cables", given, why} }
	if c, ok := FindCable(what); ok {
		return c.Item()
	}
	what, suffix, suffixed := strings.Cut(what, ":")
	what, suffix = strings.TrimSpace(what), strings.TrimSpace(suffix)
	if strings.HasSuffix(strings.ToLower(what), "awg") {
		size, err := ParseSize(what)
		if err != nil {
			return Item{}, err
		}
		if !suffixed {
			return bad("conductor has no insulation type; write for example 14AWG:THHN")
		}
		return Insulated(size, suffix)
	}
	circuit := Circuit(strings.ToLower(suffix))
	if suffixed && circuit != Class2Circuit && circuit != Communications {
		return bad("circuit not known; write class2 or communications")
	}
	first, second, oval := strings.Cut(what, "x")
	a, b := Metres(0), Metres(0)
	var err error
	if oval {
		// The unit stands once, after the second axis.
		value, rest, ok := leadingNumber(first)
		if !ok || rest != "" {
			return bad("an oval cable is written 2x4.8x9.0mm")
		}
		unit := strings.TrimLeft(second, "0123456789. ")
		if a, err = ParseLength(strconv.FormatFloat(value, 'f', -1, 64) + unit); err != nil {
			return Item{}, err
		}
	} else {
		second = what
	}
	if b, err = ParseLength(second); err != nil {
		return Item{}, err
	}
	if !oval {
		a = b
	}
	return Oval(what, Millimetres(1000*float64(a)), Millimetres(1000*float64(b)), circuit)
}
