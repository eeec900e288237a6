package demo

import (
	"strconv"
	"strings"

	"example.com/lockrail/doorsched"
)

// trade gives the words in which each region's schedules write a value, where
// the value's own name with spaces is not what people write. All of them are
// spellings the field table accepts.
var trade = map[doorsched.FieldID]map[doorsched.Choice][2]string{
	doorsched.Lock.ID(): {
		"electromagnetic":   {"Magnetic lock", "Maglock"},
		"electric_strike":   {"Electric strike", "Electric release"},
		"electrified_lock":  {"Electric lock", "Solenoid lock"},
		"electrified_panic": {"Latch retraction", "Motor latch"},
	},
	doorsched.Fail.ID(): {
		"safe":   {"Fail safe", "Fail unlocked"},
		"secure": {"Fail secure", "Fail locked"},
	},
	doorsched.EgressHardware.ID(): {
		"panic":     {"Panic", "EN1125"},
		"fire_exit": {"Fire exit", "Fire exit"},
	},
	doorsched.LatchType.ID():   {"mortise": {"Mortise", "Mortice"}},
	doorsched.OpeningKind.ID(): {"overhead": {"Overhead", "Roller shutter"}},
	doorsched.Sprinkler.ID():   {"13": {"NFPA 13", "Yes"}},
	doorsched.Closer.ID():      {"self": {"Surface", "Overhead"}},
	doorsched.Override.ID():    {"green": {"Call point", "Call point"}},
	doorsched.Egress.ID():      {"required": {"Required", "Yes"}},
	doorsched.Exposure.ID():    {"salt": {"Marine", "Marine"}, "indoor": {"Dry", "Dry"}},
	doorsched.Listed.ID():      {"UL294": {"UL 294", "UL 294"}},
	doorsched.Detection.ID():   {"full": {"Full", "Full"}},
}

// asWritten keeps the case of values that are codes, not words.
func asWritten(id doorsched.FieldID) bool {
	return id == doorsched.Occupancy.ID() || id == doorsched.OverrideType.ID() || id == doorsched.ActuationCategory.ID()
}

// words writes a value as a schedule of the region does: a number where the
// heading carries the unit, else text.
func words(r doorsched.Region, c column, v doorsched.Value) any {
	at := regionIndex(r)
	switch x := v.Data.(type) {
	case doorsched.Length:
		switch c.unit[at] {
		case "mm":
			return x.Millimetres()
		case "m":
			return x.Metres()
		case "ft":
			return float64(x) / float64(doorsched.Foot)
		case "in":
			return inches(x)
		}
		return x.FeetInches()
	case float64:
		return x
	case int64:
		return float64(x)
	case doorsched.Answer:
		if x == doorsched.Yes {
			return "Yes"
		}
		return "No"
	case doorsched.Choice:
		if w, ok := trade[v.Field][x]; ok {
			return w[at]
		}
		if asWritten(v.Field) {
			return string(x)
		}
		return sentence(string(x))
	case doorsched.MeansSet:
		if x.Yes() == 0 {
			return "None"
		}
		return sentence(strings.ReplaceAll(x.Yes().String(), "+", ", "))
	case doorsched.Rating:
		if x.System == doorsched.RatedMinutes {
			return strings.ToUpper(x.String())
		}
		return x.String()
	case string:
		return x
	}
	return nil
}

// inches writes a length under some feet as its inches: 40", 1 3/4".
func inches(l doorsched.Length) string {
	if l%doorsched.Inch == 0 {
		return strconv.FormatInt(int64(l/doorsched.Inch), 10) + `"`
	}
	return strings.TrimPrefix(l.FeetInches(), "0'-")
}

func sentence(name string) string {
	s := strings.ReplaceAll(name, "_", " ")
	return strings.ToUpper(s[:1]) + s[1:]
}
