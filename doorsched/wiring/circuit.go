// Package wiring turns a hardware set into a circuit and calculates it at its
// worst hour: voltage at the lock on mains, at the end of the battery and on
// charge, the port a door controller hangs on, supply and battery, and the runs
// of cable. It is for installers and for tools that size the wiring of
// electrified doors.
//
// Loads that nobody gave are generic ranges of common practice; a result on
// them says so. The adopted electrical code and a licensed person decide.
package wiring

//go:generate go test . -update

import (
	"example.com/lockrail/cable"
	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/hardware"
)

// Door is what a circuit is bound for.
type Door struct {
	View   doorsched.View
	Choice hardware.Choice
	Set    hardware.Set
}

// Circuit is one door's lock circuit at its worst hour and its runs of cable.
// Opt values are Unknown where nothing could be calculated; Result says why.
type Circuit struct {
	Door       string
	Lock       string // in the region's words; empty: no electric lock
	Supply     string // key of the Supply that feeds it
	Nominal    cable.Volts
	Holding    doorsched.Opt[cable.Amps]
	Inrush     doorsched.Opt[cable.Amps]
	OnMains    doorsched.Opt[cable.Volts] // at the lock, supply at its low limit
	BatteryEnd doorsched.Opt[cable.Volts] // at the lock, battery at the end of the hours asked
	High       doorsched.Opt[cable.Volts] // at the lock, charger at its highest, lightest load
	// LockVolts is the lowest voltage at the lock of the cases that count;
	// LockVoltsMin and LockVoltsMax are the window the lock works in.
	LockVolts    doorsched.Opt[cable.Volts]
	LockVoltsMin doorsched.Opt[cable.Volts]
	LockVoltsMax doorsched.Opt[cable.Volts]
	Longest      doorsched.Opt[cable.Metres] // run that still holds LockVoltsMin
	Governs      string                      // the case that governs
	Result       string                      // one sentence: holds, does not hold, or what is missing
	Basis        string                      // "calculated on generic loads", or on the values given
	Controller   string                      // door, closet, or empty while unknown
	PoE          doorsched.Opt[PoE]
	Runs         []Run
	Findings     []doorsched.Finding
	Assumed      []doorsched.Assumption
	Needs        []doorsched.FieldID
}

// PoE is the check of a controller at the door against its switch port.
type PoE struct {
	Type, Class int
	Watts       cable.Watts // asked of the port's far end
	WattsMax    cable.Watts // the port gives at that distance
	Fits        bool
	LeastType   int
}

// Run is one run of cable.
type Run struct {
	Name, From, To string // in the region's words
	CableID        string // of cable.Cables
	Cable          string
	Conductor      string
	Cores          int
	Length         cable.Metres
	LengthBy       string // "given" or "assumed"
	Raceway        string // smallest that fits the door's runs together; empty where not worked out
	Note           string
}

// Supply is one supply with its battery.
type Supply struct {
	Key         string // closet or door it stands in, with its voltage
	Place       string
	Nominal     cable.Volts
	Doors       []string
	Holding     cable.Amps // all held at once
	Peak        cable.Amps // worst simultaneous event
	Loading     float64    // percent of the size proposed
	Size        cable.Amps // proposed size
	BatteryHeld bool
	Hours       float64
	AmpHours    float64 // worked out
	BlockAh     float64 // next common size
	Recharge    cable.Amps
	Assumed     []doorsched.Assumption
	Note        string
}

// Plan is the wiring of a whole schedule. Circuits stand in the order of the doors given.
type Plan struct {
	Circuits []Circuit
	Supplies []Supply
}
