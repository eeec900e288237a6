package egress

import (
	"slices"
	"strings"

	"example.com/lockrail/doorsched"
)

// exitUses are uses of a door that make it one people leave through, whatever a
// schedule's egress column says or leaves out.
var exitUses = []doorsched.Choice{
	"main_entrance", "exit_exterior", "stair", "stair_discharge", "exit_passageway", "exit_enclosure", "suite_exit", "unit_entry",
	"electrical", "transformer_vault", "battery_room", "ess_room", "modular_data_center",
}

// exitDevices are hardware that is fitted for leaving and for nothing else.
var exitDevices = []doorsched.Choice{"panic", "fire_exit", "touch_bar", "emergency_device", "exit_system"}

// egressReads are the fields that egress looks at.
var egressReads = []doorsched.FieldID{
	doorsched.Egress.ID(), doorsched.DoorUse.ID(), doorsched.EgressHardware.ID(),
	doorsched.Lock.ID(), doorsched.ReleaseSet.ID(), doorsched.OccupantLoad.ID(),
}

// egress holds for a door people leave through. What the schedule says decides;
// where it says nothing, a door that is used, fitted or counted for leaving is
// one (IBC 1010.1: a door used for egress is judged as one). Nothing makes a door
// not one except the schedule saying so.
func (c Case) egress() Cond {
	if _, said := doorsched.Egress.In(c.View).Get(); said {
		return c.OneOf(doorsched.Egress, "required", "provided")
	}
	if id, _ := c.egressEvidence(); id != doorsched.NoField {
		return cond(id, doorsched.Yes)
	}
	return cond(doorsched.Egress.ID(), doorsched.Unknown)
}

func (c Case) egressEvidence() (doorsched.FieldID, string) {
	v := c.View
	if u, ok := doorsched.DoorUse.In(v).Get(); ok && slices.Contains(exitUses, u) {
		return doorsched.DoorUse.ID(), "its use is an exit or the way out of a room"
	}
	if h, ok := doorsched.EgressHardware.In(v).Get(); ok && slices.Contains(exitDevices, h) {
		return doorsched.EgressHardware.ID(), "its hardware is made for leaving"
	}
	if l, ok := doorsched.Lock.In(v).Get(); ok && (l == "delayed_egress" || l == "controlled_egress") {
		return doorsched.Lock.ID(), "its lock is one for doors people leave through"
	}
	s, _ := doorsched.ReleaseSet.In(v).Get()
	if s.HasAny(doorsched.BySensor|doorsched.ByHardwareSwitch|doorsched.ByButton) == doorsched.Yes {
		return doorsched.ReleaseSet.ID(), "its lock is released for someone leaving"
	}
	if own, ok := v.Own(doorsched.OccupantLoad.ID()); ok {
		if n, ok := own.Data.(int64); ok && n > 0 {
			return doorsched.OccupantLoad.ID(), "the schedule counts people who leave through it"
		}
	}
	return doorsched.NoField, ""
}

// assumedEgress is the assumption that egress makes, to be shown.
func (c Case) assumedEgress() (doorsched.Assumption, bool) {
	if doorsched.Egress.In(c.View).IsKnown() {
		return doorsched.Assumption{}, false
	}
	id, why := c.egressEvidence()
	if id == doorsched.NoField {
		return doorsched.Assumption{}, false
	}
	return doorsched.Assumption{Field: doorsched.Egress.ID(), Value: "provided", Reason: why, By: "egress", Doors: []string{c.View.Mark}}, true
}

// heldReads are the fields that electricallyHeld looks at.
var heldReads = []doorsched.FieldID{doorsched.Lock.ID(), doorsched.MechanicalEgress.ID()}

// electricallyHeld holds where an electric lock holds the side people leave from
// and nothing mechanical opens it. In England that is asked of every electric
// lock. By the IBC a magnetic lock and a power bolt are such locks by nature,
// latch retraction never is, and delayed and controlled egress have rules of
// their own.
func (c Case) electricallyHeld() Cond {
	free := Not(c.Is(doorsched.MechanicalEgress))
	if c.UK() {
		return All(Not(c.OneOf(doorsched.Lock, "none", "mechanical")), free)
	}
	return Any(
		c.OneOf(doorsched.Lock, "electromagnetic", "power_bolt"),
		All(c.OneOf(doorsched.Lock, "electrified_lock", "electric_strike"), free),
	)
}

// fastened holds where something latches or locks the leaf.
func (c Case) fastened() Cond {
	return Any(Not(c.OneOf(doorsched.Lock, "none")), c.Is(doorsched.Latch))
}

// unlocksWithoutPower holds where loss of power frees the lock. The stated fail
// state decides; where none is stated, a magnet cannot hold without current.
func (c Case) unlocksWithoutPower() Cond {
	if f, ok := doorsched.Fail.In(c.View).Get(); ok && f != "na" {
		return c.OneOf(doorsched.Fail, "safe")
	}
	return Any(cond(doorsched.Fail.ID(), doorsched.Unknown),
		c.OneOf(doorsched.Lock, "electromagnetic"), c.Has(doorsched.ReleaseSet, doorsched.ByPowerLoss))
}

// toMeasure is a line for the site while a field is not known.
func (c Case) toMeasure(id doorsched.FieldID, l *doorsched.SiteLine) *doorsched.SiteLine {
	if _, known := c.View.Get(id); known {
		return nil
	}
	return l
}

// fields is a sorted list of fields from handles and lists of them.
func fields(lists ...any) []doorsched.FieldID {
	var out []doorsched.FieldID
	for _, l := range lists {
		switch x := l.(type) {
		case []doorsched.FieldID:
			out = join(out, x)
		case interface{ ID() doorsched.FieldID }:
			out = join(out, single(x.ID()))
		}
	}
	slices.Sort(out)
	return out
}

// The documents that are cited, with the editions that were read about.
func ibc(clause string, s doorsched.Status) doorsched.Citation {
	return doorsched.Citation{Document: "IBC", Edition: "2021", Clause: clause, Status: s}
}

func nfpa80(clause string, s doorsched.Status) doorsched.Citation {
	return doorsched.Citation{Document: "NFPA 80", Edition: "2019", Clause: clause, Status: s}
}

func adb(clause string, s doorsched.Status) doorsched.Citation {
	return doorsched.Citation{Document: "Approved Document B volume 2", Edition: "2019 edition with amendments", Clause: clause, Status: s}
}

func adm(clause string, s doorsched.Status) doorsched.Citation {
	return doorsched.Citation{Document: "Approved Document M volume 2", Edition: "2015 edition with amendments", Clause: clause, Status: s}
}

func bs7273(clause string, s doorsched.Status) doorsched.Citation {
	return doorsched.Citation{Document: "BS 7273-4", Edition: "2015+A2:2023", Clause: clause, Status: s}
}

func fireOrder(article string) doorsched.Citation {
	return doorsched.Citation{Document: "Regulatory Reform (Fire Safety) Order", Edition: "2005", Clause: article, Status: doorsched.Verified}
}

// both cites one clause for each edition.
func both(us, uk doorsched.Citation) map[doorsched.Edition]doorsched.Citation {
	return map[doorsched.Edition]doorsched.Citation{doorsched.IBC2021: us, doorsched.England2019: uk}
}

func onlyUS(us doorsched.Citation) map[doorsched.Edition]doorsched.Citation {
	return map[doorsched.Edition]doorsched.Citation{doorsched.IBC2021: us}
}

func onlyUK(uk doorsched.Citation) map[doorsched.Edition]doorsched.Citation {
	return map[doorsched.Edition]doorsched.Citation{doorsched.England2019: uk}
}

// show writes a quantity in the units of the edition's country, with the other
// beside it where the trade reads both.
func (c Case) show(q doorsched.Quantity) string {
	if !c.UK() {
		switch q.Unit {
		case "mm":
			return doorsched.FormatNumber(q.Number/25.4, 3) + " in (" + q.String() + ")"
		case "N":
			return doorsched.FormatNumber(q.Number/4.4482216152605, 1) + " lbf (" + q.String() + ")"
		}
	}
	return strings.TrimSpace(q.String())
}

// set is a remedy's change of a field to a value.
func set[T any](f doorsched.Field[T], v T) Change { return Change{f.ID(), v} }

// add is a remedy's change that adds one means.
func add(f doorsched.Field[doorsched.MeansSet], m doorsched.Means) Change {
	return Change{f.ID(), doorsched.OneMeans(m, true)}
}
