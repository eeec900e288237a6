package hardware

import (
	"fmt"

	"example.com/lockrail/doorsched"
)

// Operation words how the door works: normal entry and exit, the fire alarm, and
// the four ways in which power or control is lost, each apart. What the schedule
// leaves open is said to be open. An empty result means that there is no set.
func Operation(v doorsched.View, e doorsched.Edition, c Choice, s Set) []string {
	d, ok := look(v, e)
	if !ok || s.Leaves == 0 {
		return nil
	}
	o := operation{door: d, c: c, set: s, eff: v.With(&c.Overlay)}
	o.free = is(o.eff, doorsched.MechanicalEgress) == doorsched.Yes
	o.by = hardwareWords[word(o.eff, doorsched.EgressHardware)]
	if o.by == "" {
		o.by = "the hardware on the leaf"
	}
	out := []string{"Entry: " + o.entry(), "Exit: " + o.exit(), "Fire alarm: " + o.alarm()}
	if c.Electric() {
		out = append(out,
			"Mains lost, on battery: "+o.onBattery(),
			"All power lost: "+o.noPower(),
			"Controller dead: "+o.noController(),
			"Alarm link open: "+o.linkOpen())
	} else {
		out = append(out, "Loss of power: changes nothing at the lock.")
	}
	if s.Count(holder) > 0 {
		out = append(out, "Hold-open: the leaf is let go by the fire alarm, by detection, by loss of power and by hand, and closes.")
	}
	return out
}

type operation struct {
	door
	c    Choice
	set  Set
	eff  doorsched.View
	free bool
	by   string // what a person works to leave
}

func (o operation) entry() string {
	readers := o.set.Count(reader)
	switch {
	case !o.c.Electric() && readers > 0:
		return "a reader is set but no electric lock: how it opens the door is not said."
	case !o.c.Electric() && o.c.AccessControlled == doorsched.Unknown:
		return "by the mechanical lock; whether the door is to be access controlled is not said."
	case !o.c.Electric():
		return "by the mechanical hardware, with a key where the function is locked."
	case readers == 0:
		return "what unlocks the door from outside is not said."
	}
	s := "a valid credential at the reader unlocks the " + o.lockName() + " for the time set"
	if o.set.Count(cylinder) > 0 {
		s += "; a key opens it without power"
	}
	return s + "."
}

func (o operation) lockName() string {
	for _, it := range o.set.Items {
		for _, r := range it.Roles {
			if r.Device == DeviceLock {
				return it.Name
			}
		}
	}
	return "lock"
}

func (o operation) exit() string {
	switch {
	case !o.c.Electric() && word(o.eff, doorsched.EgressHardware) == "push_pull":
		return "push or pull the leaf; nothing is to be unlatched."
	case !o.c.Electric():
		return "the " + o.by + " opens the door."
	case o.free:
		return "the " + o.by + " opens the door at any time, whatever lock, controller and power do."
	}
	switch o.c.Lock {
	case "delayed_egress":
		s := "working the hardware starts the delay, not given in the schedule, after which the door opens."
		if t, ok := doorsched.Delay.In(o.view).Get(); ok {
			s = fmt.Sprintf("working the hardware starts a delay of %s s, after which the door opens.", doorsched.FormatNumber(t, 1))
		}
		return s
	case "controlled_egress":
		return "staff unlock the door."
	}
	best, _ := o.c.Best()
	switch best.Release {
	case "sensor":
		return "the sensor unlocks when someone comes near; the button marked PUSH TO EXIT cuts lock power by itself for at least 30 s."
	case "hardware_switch":
		return "working the " + o.by + " cuts lock power by itself and opens the door."
	case "emergency_release":
		return "the exit button asks the controller to unlock; in an emergency the green unit beside the door cuts both poles of the lock supply and stays released until it is reset."
	}
	return "how the lock is released from inside is not said."
}

func (o operation) alarm() string {
	if !o.c.Electric() {
		return "changes nothing at the lock."
	}
	means, _ := doorsched.ReleaseSet.In(o.eff).Get()
	s := ""
	switch {
	case o.c.Lock == "electrified_panic" && o.rated == doorsched.Yes:
		return "a latch held back is let go, so that the fire door latches; the " + o.by + " still opens it."
	case means.Has(doorsched.ByFireAlarm) == doorsched.Yes:
		s = "the lock is released and stays so until the alarm is reset"
	case o.free:
		return "the lock does nothing: people leave by the " + o.by + ", and the door stays latched against the fire."
	case is(o.view, doorsched.FireAlarm) == doorsched.No:
		return "the building has none."
	case means.Has(doorsched.ByFireAlarm) == doorsched.No || o.region == doorsched.RegionUS && o.releaseKind() == "hardware_switch":
		s = "does not release the lock; the other means do"
	default:
		return "whether it releases the lock is not said."
	}
	if is(o.view, doorsched.FireAlarm) == doorsched.Unknown && o.region == doorsched.RegionUS {
		s += " (whether the building has an alarm is not said)"
	}
	return s + "."
}

func (o operation) releaseKind() string {
	best, _ := o.c.Best()
	return best.Release
}

// leave ends a sentence about a lost supply with the way out.
func (o operation) leave() string {
	if o.free {
		return "the " + o.by + " still opens the door from inside"
	}
	return "the means of release above still unlock it"
}

func (o operation) onBattery() string {
	hours := ""
	if h, ok := doorsched.BatteryHours.In(o.view).Get(); ok {
		hours = " for " + doorsched.FormatNumber(h, 1) + " h"
	}
	if is(o.view, doorsched.LockPSUBattery) == doorsched.No {
		return "the lock's supply has no battery, so this is the same as all power lost."
	}
	if o.c.Fail != "safe" {
		return "credentials work" + hours + " while the battery lasts; " + o.leave() + "."
	}
	switch is(o.view, doorsched.HeldOnBattery) {
	case doorsched.Yes:
		return "the lock stays locked" + hours + " while the battery lasts; " + o.leave() + "."
	case doorsched.No:
		return "the lock is not held on battery and unlocks at once."
	}
	return "whether the lock stays locked on battery is not said; " + o.leave() + "."
}

func (o operation) noPower() string {
	latched := ""
	if is(o.eff, doorsched.Latch) == doorsched.Yes {
		latched = "; the latch still holds the leaf shut until it is worked"
	}
	switch o.c.Fail {
	case "safe":
		if o.c.Lock == "electric_strike" {
			latched = "; the strike no longer holds the latch"
		}
		return "the lock unlocks" + latched + "."
	case "secure":
		s := "the door stays locked from outside"
		if o.free {
			return s + "; " + o.leave() + "."
		}
		return s + " and from inside: nobody gets out without power."
	}
	return "what the lock does without power is not said."
}

func (o operation) noController() string {
	means, _ := doorsched.ReleaseSet.In(o.eff).Get()
	switch {
	case o.free:
		return "credentials do not work; " + o.leave() + "."
	case means.Has(doorsched.BySystemError) == doorsched.Yes:
		return "the lock unlocks."
	case means.Has(doorsched.BySystemError) == doorsched.No:
		return "the lock stays as it is; only means that do not pass through the controller unlock it."
	}
	return "whether the lock unlocks is not said; means that cut lock power directly still do."
}

func (o operation) linkOpen() string {
	means, _ := doorsched.ReleaseSet.In(o.eff).Get()
	switch {
	case o.free && o.c.Lock == "electrified_panic" && o.rated == doorsched.Yes:
		return "the latch must be let go as on alarm: to be proved on site; " + o.leave() + "."
	case o.free:
		return "changes nothing; " + o.leave() + "."
	case means.Has(doorsched.ByFireAlarm) == doorsched.No:
		return "there is no link to the fire alarm."
	case word(o.eff, doorsched.ActuationCategory) == "A":
		return "the lock unlocks (category A: a break or short on the link counts as an alarm)."
	}
	return "whether a break or short on the link unlocks the door is not said."
}
