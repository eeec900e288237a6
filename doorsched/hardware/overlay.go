package hardware

import "example.com/lockrail/doorsched"

// Values that a proposed set specifies. They are the limits and figures of the
// release arrangements in the editions judged; what is built is measured on site.
const (
	buttonAt       = 42 * doorsched.Inch         // of 40 to 48 in above the floor
	buttonWithin   = 5 * doorsched.Foot          // of the door
	buttonUnlocks  = 30.0                        // seconds
	doorUnitAt     = 1400 * doorsched.Millimetre // about 1.4 m above the floor
	doorUnitWithin = 2000 * doorsched.Millimetre // of the door edge
	doorUnitPoles  = 2                           // conductors of the lock supply that it breaks
)

// overlay fills in what a candidate settles, where the schedule is silent.
func (d door) overlay(c *Candidate) {
	v, o := d.view, &c.Overlay
	fits(v, o, doorsched.Lock, c.Lock)
	if c.Fail != "" {
		fits(v, o, doorsched.Fail, c.Fail)
	}
	fits(v, o, doorsched.EgressHardware, c.Hardware)
	fits(v, o, doorsched.LatchType, c.Latch)
	fits(v, o, doorsched.Latch, doorsched.AnswerOf(c.Latch != "none"))
	fits(v, o, doorsched.MechanicalEgress, doorsched.AnswerOf(c.FreeExit))
	if !d.existing {
		// Nothing but the hardware proposed is on a new leaf.
		fits(v, o, doorsched.Motions, 1)
		fits(v, o, doorsched.KeyEgress, doorsched.No)
		fits(v, o, doorsched.SpecialKnowledge, doorsched.No)
		fits(v, o, doorsched.DeadBolt, doorsched.No)
	}
	if w := d.width(LeafActive); w > 0 && isBar(c.Hardware) {
		fits(v, o, doorsched.BarWidth, (w+1)/2)
	}
	if !isElectric(c.Lock) {
		return
	}
	fits(v, o, doorsched.Fastened, doorsched.Yes)
	if !oneOf(c.Lock, "delayed_egress", "controlled_egress") {
		fits(v, o, doorsched.Delay, 0)
	}
	if c.Lock == "electric_strike" && c.Fail != "" && c.Fail != "na" {
		fits(v, o, doorsched.LatchFreed, doorsched.AnswerOf(c.Fail == "safe"))
	}
	if c.FreeExit {
		return
	}
	switch c.Release {
	case "sensor":
		fits(v, o, doorsched.ReleaseMode, "sensor")
		d.releasedBy(o, doorsched.BySensor|doorsched.ByButton|doorsched.ByPowerLoss|d.alarmMeans())
		fits(v, o, doorsched.ButtonHeight, buttonAt)
		fits(v, o, doorsched.ButtonDistance, buttonWithin)
		fits(v, o, doorsched.ButtonUnlock, buttonUnlocks)
		fits(v, o, doorsched.ButtonDirect, doorsched.Yes)
		fits(v, o, doorsched.ButtonSign, doorsched.Yes)
		fits(v, o, doorsched.Listed, "UL294")
	case "hardware_switch":
		fits(v, o, doorsched.ReleaseMode, "hardware_switch")
		d.releasedBy(o, doorsched.ByHardwareSwitch|doorsched.ByPowerLoss)
		fits(v, o, doorsched.HardwareDirect, doorsched.Yes)
		fits(v, o, doorsched.Listed, "UL294")
	case "emergency_release":
		d.releasedBy(o, doorsched.ByFireAlarm|doorsched.ByPowerLoss|doorsched.BySystemError|doorsched.ByButton|doorsched.ByEmergencyRelease)
		d.doorUnitFields(o)
	default: // delayed and controlled egress, only ever given
		if oneOf(c.Lock, "delayed_egress", "controlled_egress") {
			d.releasedBy(o, doorsched.ByPowerLoss|d.alarmMeans())
		}
	}
}

// releasedBy adds means about which the schedule says nothing.
func (d door) releasedBy(o *doorsched.Record, m doorsched.Means) {
	fitsMeans(d.view, o, doorsched.ReleaseSet, m)
}

// alarmMeans is the alarm, sprinklers and detection, save what the building is
// known not to have: a release by them is fitted where they are.
func (d door) alarmMeans() doorsched.Means {
	m := doorsched.ByFireAlarm | doorsched.BySprinkler | doorsched.BySmoke
	if is(d.view, doorsched.FireAlarm) == doorsched.No {
		m &^= doorsched.ByFireAlarm
	}
	if word(d.view, doorsched.Sprinkler) == "none" {
		m &^= doorsched.BySprinkler
	}
	if word(d.view, doorsched.Detection) == "none" {
		m &^= doorsched.BySmoke
	}
	return m
}

// doorUnitFields describes the emergency door release unit: BS 7273-4 as read in
// secondary sources, with category A taken as the safe one for a lock.
func (d door) doorUnitFields(o *doorsched.Record) {
	v := d.view
	fits(v, o, doorsched.Override, "green")
	fits(v, o, doorsched.OverrideType, "A")
	fits(v, o, doorsched.OverrideLatching, doorsched.Yes)
	fits(v, o, doorsched.OverridePoles, doorUnitPoles)
	fits(v, o, doorsched.OverrideColour, "green")
	fits(v, o, doorsched.OverrideHeight, doorUnitAt)
	fits(v, o, doorsched.OverrideDistance, doorUnitWithin)
	fits(v, o, doorsched.OverrideSides, d.doorUnits())
	if d.doorUnits() == 2 {
		fits(v, o, doorsched.OverrideSide, "both")
	} else {
		fits(v, o, doorsched.OverrideSide, "escape_side")
	}
	fits(v, o, doorsched.OverrideCutsSupply, doorsched.Yes)
	fits(v, o, doorsched.ActuationCategory, "A")
}

// doorUnits is the number of emergency door release units: both sides where
// people escape either way.
func (d door) doorUnits() int64 {
	if n, ok := doorsched.OverrideSides.In(d.view).Get(); ok {
		return n
	}
	if is(d.view, doorsched.EscapeBothWays) == doorsched.Yes {
		return 2
	}
	return 1
}
