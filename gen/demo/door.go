package demo

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/lockrail/doorsched"
)

// Door is one door of the terminal, described once for both regions.
type Door struct {
	Mark string
	// Why says what the door is there to show.
	Why string
	// WantUS and WantUK are the verdicts meant on ibc-2021 and england-2019.
	WantUS, WantUK doorsched.Verdict
	// BreaksUS and BreaksUK are the slugs of the rules it is meant to break, sorted.
	BreaksUS, BreaksUK []string
	// LowVoltage marks the door whose lock is meant to get too little at the end
	// of its cable.
	LowVoltage bool

	upper       bool // stands on the upper level
	size        size
	pair        bool
	cable       int // metres of cable from its closet; 0 is none
	both        string
	us, uk      string
	rawUS       raw // cells that no field accepts
	rawUK       raw
	remark      string
	sketch      string
	missingSize bool // the schedule leaves the size out
}

// raw holds cell texts that take the place of a field's value.
type raw map[string]string

// size is one nominal leaf: the American one in inches and the British one, not
// equal but ordered in its place, in millimetres. Clear widths and masses are
// those of the demo, not of a product.
type size struct {
	wIn, hIn, clearIn, pairClearIn int
	wMM, hMM, clearMM, pairClearMM int
	kg                             int
}

var (
	leaf30  = size{36, 84, 33, 69, 926, 2040, 860, 1780, 46}
	steel30 = size{36, 84, 33, 69, 926, 2100, 860, 1780, 62}
	steel36 = size{42, 84, 39, 81, 1026, 2100, 960, 1980, 72}
	glass36 = size{42, 96, 39, 81, 1026, 2400, 960, 1980, 78}
)

// Want returns the verdict meant on an edition.
func (d Door) Want(e doorsched.Edition) doorsched.Verdict {
	if e == doorsched.England2019 {
		return d.WantUK
	}
	return d.WantUS
}

// Breaks returns the slugs of the rules that the door is meant to break on an
// edition, sorted.
func (d Door) Breaks(e doorsched.Edition) []string {
	if e == doorsched.England2019 {
		return d.BreaksUK
	}
	return d.BreaksUS
}

// Record returns what the schedule of a region says about the door: fields that
// the region has no heading for are left out. Errors wrap
// doorsched.ErrField or doorsched.ErrValue and mean that the table is wrong.
func (d Door) Record(r doorsched.Region) (doorsched.Record, error) {
	var out doorsched.Record
	own, unread := d.us, d.rawUS
	if r == doorsched.RegionUK {
		own, unread = d.uk, d.rawUK
	}
	for _, spec := range []string{"mark=" + d.Mark, d.sizes(r), d.run(r), d.both, own} {
		if err := fill(&out, spec); err != nil {
			return doorsched.Record{}, fmt.Errorf("door %s: %w", d.Mark, err)
		}
	}
	if d.remark != "" {
		doorsched.Remarks.Put(&out, d.remark, doorsched.Given)
	}
	written := writtenFields(r)
	for _, v := range slices.Clone(out.All()) {
		if _, raw := unread[v.Field.String()]; raw || !written[v.Field] {
			out.Delete(v.Field)
		}
	}
	return out, nil
}

// raw returns the cell text that takes a field's place.
func (d Door) raw(r doorsched.Region, id doorsched.FieldID) (string, bool) {
	m := d.rawUS
	if r == doorsched.RegionUK {
		m = d.rawUK
	}
	s, ok := m[id.String()]
	return s, ok
}

// fill sets fields from "name=value; name=value"; a later one replaces an
// earlier one, and an empty value takes the field away.
func fill(rec *doorsched.Record, spec string) error {
	for item := range strings.SplitSeq(spec, ";") {
		item = strings.TrimSpace(item)
		if item == "" {
			continue
		}
		name, value, ok := strings.Cut(item, "=")
		if !ok {
			return fmt.Errorf("%q has no =", item)
		}
		if value == "" {
			info, _, ok := doorsched.LookupField(name)
			if !ok {
				return fmt.Errorf("%w: %q", doorsched.ErrField, name)
			}
			rec.Delete(info.ID)
			continue
		}
		if err := doorsched.Set(rec, name, value, doorsched.Given); err != nil {
			return err
		}
	}
	return nil
}

func (d Door) leaves() int {
	if d.pair {
		return 2
	}
	return 1
}

// sizes gives the size as each region's trade writes it: the Americans the
// width of the opening, the British that of the leaf.
func (d Door) sizes(r doorsched.Region) string {
	if d.missingSize {
		return ""
	}
	z, n := d.size, d.leaves()
	if r == doorsched.RegionUK {
		clear := z.clearMM
		if d.pair {
			clear = z.pairClearMM
		}
		return fmt.Sprintf("leaves=%d; leaf_width=%d mm; height=%d mm; clear_width=%d mm; clear_height=%d mm; leaf_mass=%d",
			n, z.wMM, z.hMM, clear, z.hMM-15, z.kg)
	}
	clear := z.clearIn
	if d.pair {
		clear = z.pairClearIn
	}
	return fmt.Sprintf("leaves=%d; width=%d in; height=%d in; clear_width=%d in; clear_height=%d in", n, z.wIn*n, z.hIn, clear, z.hIn-1)
}

// run gives the cable's length, in whole feet or metres.
func (d Door) run(r doorsched.Region) string {
	switch {
	case d.cable == 0:
		return ""
	case r == doorsched.RegionUK:
		return "cable_length=" + strconv.Itoa(d.cable) + " m; cable_size=1.0mm2"
	}
	return "cable_length=" + strconv.Itoa(int(math.Round(float64(d.cable)/0.3048))) + " ft; cable_size=18AWG"
}

// Doors lists the doors in the order of the schedules.
func Doors() []Door { return slices.Clone(doors) }
