package wiring

import (
	"math"
	"strings"

	"example.com/lockrail/cable"
	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/hardware"
	"example.com/lockrail/power"
)

// words is the one table of texts in which the regions differ.
type words struct {
	region     doorsched.Region
	closet     string
	controller string // the controller at the door
	supply     string
	transfer   string
	holding    string // the current of everything held
	cable      string // default cable for a lock, of cable.Cables
	transferID cable.Size
	locks      map[doorsched.Choice]string
	devices    map[hardware.Device]string
	// runs names the cable of a device's run; a device that is not here has none.
	runs map[hardware.Device]string
}

var usWords = words{
	region:     doorsched.RegionUS,
	closet:     "closet",
	controller: "door controller above the door",
	supply:     "power supply",
	transfer:   "power transfer",
	holding:    "holding current",
	cable:      "18/2",
	transferID: cable.AWG(24),
	locks: map[doorsched.Choice]string{
		"electrified_lock": "electrified lock", "electrified_panic": "exit device with electric latch retraction",
		"electric_strike": "electric strike", "electromagnetic": "electromagnetic lock", "power_bolt": "electrified bolt",
		"delayed_egress": "delayed egress lock", "controlled_egress": "controlled egress lock",
	},
	devices: map[hardware.Device]string{
		hardware.DeviceLock: "lock", hardware.DeviceReader: "card reader", hardware.DeviceREX: "request-to-exit device",
		hardware.DeviceExitButton: "push-to-exit button", hardware.DeviceEmergencyRelease: "emergency release",
		hardware.DeviceContact: "door position switch", hardware.DeviceLatchMonitor: "latch monitor",
		hardware.DeviceHoldOpen: "door holder", hardware.DeviceOperator: "automatic operator",
	},
	runs: map[hardware.Device]string{
		hardware.DeviceLock: "18/2", hardware.DeviceReader: "22/6", hardware.DeviceREX: "22/4", hardware.DeviceExitButton: "22/4",
		hardware.DeviceEmergencyRelease: "18/2", hardware.DeviceContact: "22/2", hardware.DeviceLatchMonitor: "22/2",
		hardware.DeviceHoldOpen: "18/2", hardware.DeviceOperator: "22/4",
	},
}

var ukWords = words{
	region:     doorsched.RegionUK,
	closet:     "comms cupboard",
	controller: "door controller above the door",
	supply:     "power supply unit",
	transfer:   "door loop",
	holding:    "quiescent current",
	cable:      "2x1.0",
	transferID: cable.Metric(0.22),
	locks: map[doorsched.Choice]string{
		"electrified_lock": "electric lock case", "electrified_panic": "electrically operated panic exit device",
		"electric_strike": "electric release", "electromagnetic": "magnetic lock", "power_bolt": "electric bolt",
		"delayed_egress": "delayed exit lock", "controlled_egress": "controlled exit lock",
	},
	devices: map[hardware.Device]string{
		hardware.DeviceLock: "lock", hardware.DeviceReader: "reader", hardware.DeviceREX: "exit sensor",
		hardware.DeviceExitButton: "exit button", hardware.DeviceEmergencyRelease: "emergency door release unit",
		hardware.DeviceContact: "door contact", hardware.DeviceLatchMonitor: "bolt monitor",
		hardware.DeviceHoldOpen: "hold-open magnet", hardware.DeviceOperator: "automatic door operator",
	},
	runs: map[hardware.Device]string{
		hardware.DeviceLock: "2x1.0", hardware.DeviceReader: "alarm-8", hardware.DeviceREX: "alarm-4", hardware.DeviceExitButton: "alarm-4",
		hardware.DeviceEmergencyRelease: "2x1.0", hardware.DeviceContact: "alarm-4", hardware.DeviceLatchMonitor: "alarm-4",
		hardware.DeviceHoldOpen: "2x1.0", hardware.DeviceOperator: "alarm-4",
	},
}

func wordsFor(d Door, e doorsched.Edition) words {
	region := d.Set.Region
	if info, ok := e.Info(); ok {
		region = info.Region
	}
	if region == doorsched.RegionUK {
		return ukWords
	}
	return usWords
}

func (w words) lock(c hardware.Choice) string {
	name := w.locks[c.Lock]
	if name == "" {
		name = strings.ReplaceAll(string(c.Lock), "_", " ")
	}
	switch c.Fail {
	case "safe":
		name += ", fail safe"
	case "secure":
		name += ", fail secure"
	}
	return name
}

// closetNamed is the place of a closet: "closet C1".
func (w words) closetNamed(name string) string {
	if name == "" {
		return w.closet
	}
	return w.closet + " " + name
}

// length writes a run as the region measures it. Feet are rounded down, so that a
// longest run stays one that holds.
func (w words) length(m cable.Metres) string {
	metres := doorsched.FormatNumber(float64(m), 1) + " m"
	if w.region == doorsched.RegionUS {
		return doorsched.FormatNumber(math.Floor(m.Feet()+1e-6), 0) + " ft (" + metres + ")"
	}
	return metres
}

var eventWords = map[power.Event]string{
	power.MainsLow:    "supply low on mains",
	power.BatteryEnd:  "battery at the end of its hours",
	power.ChargerHigh: "battery on charge",
}

var stateWords = map[power.State]string{
	power.Holding:  "holding",
	power.Inrush:   "inrush",
	power.Lightest: "lightest load",
}

// volts, amps and watts print the unit with at most two decimals, three for
// small currents.
func volts(v cable.Volts) string { return doorsched.FormatNumber(float64(v), 2) + " V" }
func amps(a cable.Amps) string   { return doorsched.FormatNumber(float64(a), 3) + " A" }
func watts(p cable.Watts) string { return doorsched.FormatNumber(float64(p), 1) + " W" }

// capital begins a sentence.
func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

const (
	basisGiven   = "calculated on the values given"
	basisPart    = "calculated on the holding current given and a generic inrush"
	basisGeneric = "calculated on generic loads"

	byWiring  = "wiring"
	notPlaced = "not placed"
)
