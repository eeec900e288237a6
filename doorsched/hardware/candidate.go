package hardware

import (
	"slices"
	"strings"

	"example.com/lockrail/doorsched"
)

// lockKind is one row of the locks that can be proposed, or given.
type lockKind struct {
	lock   doorsched.Choice
	us, uk string
	volts  []float64 // preferred first
	// site is the work on site on new doors and on existing ones: 0 none beyond
	// wiring the frame, 1 wiring in the leaf or surface fixing, 2 a cut in frame
	// or leaf edge, 3 a cut through the leaf (common practice).
	siteNew, siteOld int
	cost             int // order of usual cost (common practice)
	propose          bool
}

var lockKinds = []lockKind{
	{"mechanical", "mechanical lock", "mechanical lock", nil, 0, 0, 0, true},
	{"electric_strike", "electric strike", "electric release", []float64{24, 12}, 0, 2, 10, true},
	{"electromagnetic", "electromagnetic lock", "magnetic lock", []float64{24, 12}, 0, 1, 20, true},
	{"power_bolt", "electrified bolt", "electric bolt", []float64{24, 12}, 1, 2, 22, true},
	{"electrified_lock", "electrified lock", "electric lock", []float64{24, 12}, 1, 3, 30, true},
	{"electrified_panic", "electric latch retraction", "electric latch retraction", []float64{24}, 1, 2, 60, true},
	{"delayed_egress", "delayed egress lock", "delayed exit lock", []float64{24, 12}, 1, 2, 70, false},
	{"controlled_egress", "controlled egress lock", "controlled exit lock", []float64{24, 12}, 1, 2, 70, false},
}

// trim is what a person works to leave, with the latch it works.
type trim struct{ hardware, latch doorsched.Choice }

var hardwareWords = map[doorsched.Choice]string{
	"lever": "lever", "knob": "knob", "paddle": "paddle", "thumbturn": "thumbturn", "panic": "panic hardware", "fire_exit": "fire exit hardware",
	"touch_bar": "touch bar", "emergency_device": "emergency exit device", "exit_system": "tested exit system", "simple": "simple fastening",
	"push_pull": "push and pull", "none": "no hardware",
}

// isBar reports whether the hardware is an exit device.
func isBar(hw doorsched.Choice) bool {
	return oneOf(hw, "panic", "fire_exit", "touch_bar", "exit_system")
}

// retracts reports whether the hardware draws a latch back by hand.
func retracts(hw doorsched.Choice) bool {
	return isBar(hw) || oneOf(hw, "lever", "knob", "paddle", "thumbturn", "emergency_device", "simple")
}

// trims lists the hardware that could go on the leaf: only what the schedule
// gives, where it gives any.
func (d door) trims() []trim {
	hw, latch := word(d.view, doorsched.EgressHardware), word(d.view, doorsched.LatchType)
	if latch == "" && is(d.view, doorsched.Latch) == doorsched.No {
		latch = "none"
	}
	var hws []doorsched.Choice
	switch {
	case hw != "":
		hws = []doorsched.Choice{hw}
	case latch == "none":
		hws = []doorsched.Choice{"push_pull"}
	case d.glass && latch == "":
		hws = []doorsched.Choice{"push_pull", d.bar()}
	case latch == "cylindrical":
		hws = []doorsched.Choice{"lever"}
	case latch == "vertical_rod" || latch == "rim":
		hws = []doorsched.Choice{d.bar()}
	case d.region == doorsched.RegionUK:
		hws = []doorsched.Choice{"lever", "emergency_device", d.bar()}
	default:
		hws = []doorsched.Choice{"lever", d.bar()}
	}
	var out []trim
	for _, h := range hws {
		l := latch
		switch {
		case l != "":
		case isBar(h) && d.leaves == 2:
			l = "vertical_rod"
		case isBar(h):
			l = "rim"
		case retracts(h):
			l = "mortise"
		default:
			l = "none"
		}
		out = append(out, trim{h, l})
		if latch == "" && isBar(h) && d.leaves == 2 {
			out = append(out, trim{h, "rim"}) // with a removable mullion
		}
	}
	return out
}

// bar is the exit device proposed: in the US fire exit hardware unless the door
// is known to be unrated, because a fire door may carry no other.
func (d door) bar() doorsched.Choice {
	if d.region == doorsched.RegionUK || d.rated == doorsched.No {
		return "panic"
	}
	return "fire_exit"
}

// refuse says why a lock cannot go on the door with a trim, or "".
func (d door) refuse(lock doorsched.Choice, t trim) string {
	switch lock {
	case "electric_strike":
		switch {
		case d.glass:
			return "an all-glass leaf has no latch for a strike"
		case t.latch == "vertical_rod":
			return "a strike at the latch does not free vertical rods"
		case t.latch == "none" || !retracts(t.hardware):
			return "a strike needs a latch that a person draws back by hand"
		}
	case "electrified_lock":
		switch {
		case d.glass:
			return "an all-glass leaf has no edge for a lock case"
		case !oneOf(t.latch, "mortise", "cylindrical"):
			return "an electrified lock replaces a mortise or cylindrical lock"
		case isBar(t.hardware) || !retracts(t.hardware):
			return "an electrified lock is worked by a lever, not by a bar or by push and pull"
		}
	case "electrified_panic":
		switch {
		case d.glass:
			return "an all-glass leaf carries no such exit device"
		case !isBar(t.hardware):
			return "latch retraction belongs to an exit device"
		}
	case "power_bolt":
		switch {
		case d.rated != doorsched.No:
			return "a bolt that draws back without power does not keep a fire door shut, and the door is not known to be unrated"
		case isBar(t.hardware):
			return "a bolt beside an exit device stops it from working"
		}
	}
	return ""
}

// fails lists the fail states that can be proposed, preferred first, and the
// reasons against the others.
func (d door) fails(lock doorsched.Choice) ([]doorsched.Choice, []Refusal) {
	switch lock {
	case "electric_strike":
		switch d.rated {
		case doorsched.No:
			return []doorsched.Choice{"secure", "safe"}, nil
		case doorsched.Yes:
			return []doorsched.Choice{"secure"}, []Refusal{{lock, "safe", "on a rated frame a strike stays locked without power: one that lets go frees the latch of a fire door"}}
		}
		return []doorsched.Choice{"secure"}, []Refusal{{lock, "safe", "the fire rating is not known, and on a rated frame a strike must stay locked without power"}}
	case "electrified_lock":
		return []doorsched.Choice{"secure", "safe"}, nil
	case "electrified_panic":
		return []doorsched.Choice{"secure"}, []Refusal{{lock, "safe", "latch retraction holds the latch back only while powered"}}
	case "electromagnetic", "delayed_egress", "controlled_egress":
		return []doorsched.Choice{"safe"}, []Refusal{{lock, "secure", "a magnet holds only while powered"}}
	case "power_bolt":
		if word(d.view, doorsched.Egress) == "none" {
			return []doorsched.Choice{"safe", "secure"}, nil
		}
		return []doorsched.Choice{"safe"}, []Refusal{{lock, "secure", "a bolt that stays locked without power shuts people in; the door is not known to be off every way out"}}
	}
	return []doorsched.Choice{""}, nil
}

// releases lists the release arrangements for a lock that no hardware on the
// leaf frees by itself.
func (d door) releases(t trim) []string {
	if d.region == doorsched.RegionUK {
		return []string{"emergency_release"}
	}
	if m := word(d.view, doorsched.ReleaseMode); m != "" {
		return []string{string(m)}
	}
	if retracts(t.hardware) {
		return []string{"hardware_switch", "sensor"}
	}
	return []string{"sensor"}
}

// freeExit answers whether a person leaves by the hardware on the leaf whatever
// the lock does.
func (d door) freeExit(lock doorsched.Choice, t trim) bool {
	if a, ok := doorsched.MechanicalEgress.In(d.view).Get(); ok {
		return a == doorsched.Yes
	}
	switch lock {
	case "electric_strike", "electrified_lock", "electrified_panic":
		return retracts(t.hardware)
	case "mechanical", "none":
		return true
	}
	return false
}

// candidates builds every lock to be tried, not yet judged. Candidates that
// differ in volts alone follow each other.
func (d door) candidates(access doorsched.Answer) ([]Candidate, []Refusal) {
	given := word(d.view, doorsched.Lock)
	var out []Candidate
	var refused []Refusal
	refuse := func(r Refusal) {
		if !slices.Contains(refused, r) {
			refused = append(refused, r)
		}
	}
	for _, k := range lockKinds {
		switch {
		case given == k.lock || given == "none" && k.lock == "mechanical":
		case given != "":
			continue
		case k.lock == "mechanical" && access == doorsched.Yes, k.lock != "mechanical" && access != doorsched.Yes, !k.propose:
			continue
		}
		fails, against := d.fails(k.lock)
		if f := word(d.view, doorsched.Fail); f != "" && isElectric(k.lock) {
			switch {
			case given != "", f == "na":
				fails, against = []doorsched.Choice{f}, nil
			case slices.Contains(fails, f):
				fails, against = []doorsched.Choice{f}, nil
			default:
				refuse(Refusal{k.lock, "", "the schedule asks for " + failWords(f, d.region)})
				continue
			}
		}
		before := len(out)
		for _, t := range d.trims() {
			if why := d.refuse(k.lock, t); why != "" && given == "" {
				refuse(Refusal{k.lock, "", "with " + hardwareWords[t.hardware] + ": " + why})
				continue
			}
			for _, f := range fails {
				arrangements := []string{""}
				if oneOf(k.lock, "electromagnetic", "power_bolt") && !d.freeExit(k.lock, t) {
					arrangements = d.releases(t)
				}
				for _, r := range arrangements {
					out = append(out, d.candidate(k, t, f, r))
				}
			}
		}
		if len(out) > before && given == "" {
			for _, r := range against {
				refuse(r)
			}
		}
	}
	return out, refused
}

func (d door) candidate(k lockKind, t trim, fail doorsched.Choice, release string) Candidate {
	c := Candidate{Lock: k.lock, Fail: fail, Hardware: t.hardware, Latch: t.latch, Release: release, FreeExit: d.freeExit(k.lock, t),
		SiteWork: k.siteNew, CostRank: k.cost, WithinLabel: d.withinLabel(k.lock)}
	switch given := word(d.view, doorsched.Lock); {
	case given != "":
		c.Lock = given
	case k.lock == "mechanical" && !retracts(t.hardware):
		c.Lock = "none"
	}
	if d.existing {
		c.SiteWork = k.siteOld
	}
	if release == "hardware_switch" {
		c.SiteWork++ // the switch is wired through the leaf
		c.CostRank += 5
	}
	switch {
	case isBar(t.hardware):
		c.CostRank += 8
		if t.latch == "rim" && d.leaves == 2 {
			c.CostRank += 2 // the mullion
		}
	case t.hardware == "emergency_device":
		c.CostRank += 2
	}
	if k.lock == "electric_strike" && fail == "safe" || k.lock == "electrified_lock" && fail == "safe" {
		c.CostRank++ // fed all day
	}
	d.overlay(&c)
	if !c.FreeExit {
		set, _ := doorsched.ReleaseSet.In(d.view.With(&c.Overlay)).Get()
		for m := set.Yes(); m != 0; m &= m - 1 {
			c.Releases++
		}
	}
	return c
}

// withinLabel answers whether the lock can be fitted within the door's fire
// label or certificate. What NFPA 80 4.1.3 lets be done on site (surface
// hardware) is within an existing label, a cut for a strike or a lock body is
// not; a new US opening is ordered with the preparation under its label. UK
// evidence is the door's own and has to be shown.
func (d door) withinLabel(lock doorsched.Choice) doorsched.Answer {
	if d.rated == doorsched.No || !isElectric(lock) {
		return doorsched.Yes
	}
	if a, ok := doorsched.FireTestEvidence.In(d.view).Get(); ok {
		return a
	}
	switch {
	case d.rated == doorsched.Unknown, d.region == doorsched.RegionUK, lock == "electrified_panic" && d.existing:
		return doorsched.Unknown
	case lock == "power_bolt", d.existing && lock != "electromagnetic":
		return doorsched.No
	}
	return doorsched.Yes
}

// name writes a candidate's name in the region's words.
func (d door) name(c Candidate) string {
	var parts []string
	i := slices.IndexFunc(lockKinds, func(k lockKind) bool { return k.lock == c.Lock })
	switch {
	case i < 0:
		parts = append(parts, "no lock")
	case d.region == doorsched.RegionUK:
		parts = append(parts, lockKinds[i].uk)
	default:
		parts = append(parts, lockKinds[i].us)
	}
	if f := failWords(c.Fail, d.region); f != "" {
		parts = append(parts, f)
	}
	if c.Volts != 0 {
		parts = append(parts, doorsched.FormatNumber(c.Volts, 1)+" V")
	}
	parts = append(parts, hardwareWords[c.Hardware])
	if d.leaves == 2 && isBar(c.Hardware) {
		parts = append(parts, map[doorsched.Choice]string{"rim": "rim devices and mullion", "vertical_rod": "vertical rods", "mortise": "mortise device"}[c.Latch])
	}
	switch c.Release {
	case "sensor":
		parts = append(parts, "released by sensor and button")
	case "hardware_switch":
		parts = append(parts, "released by the switch in the hardware")
	case "emergency_release":
		parts = append(parts, "released by fire alarm and emergency door release")
	}
	return strings.Join(parts, ", ")
}
