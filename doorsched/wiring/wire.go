package wiring

import (
	"strings"

	"example.com/lockrail/doorsched"
)

// Wire binds each door's set to a circuit, calculates it at its worst hour, and
// adds up the supplies. Lengths are metres, voltages volts of direct current,
// currents amperes. It never fails: what cannot be calculated is Unknown, and the
// circuit's Result, Needs and Findings say why. The same doors give the same plan.
func Wire(doors []Door, e doorsched.Edition) Plan {
	var plan Plan
	var members []*member
	for _, d := range doors {
		circuit, m := wireDoor(d, e)
		plan.Circuits = append(plan.Circuits, circuit)
		if m != nil {
			members = append(members, m)
		}
	}
	plan.Supplies = supplies(members)
	return plan
}

// wireDoor is one door's circuit and what it asks of a supply; nil for nothing.
func wireDoor(d Door, e doorsched.Edition) (Circuit, *member) {
	b := &bench{door: d, words: wordsFor(d, e), circuit: Circuit{Door: d.View.Mark}}
	b.place()
	if !d.Choice.Electric() {
		b.circuit.Result = "no electric lock"
		if d.Choice.Lock == "" {
			b.circuit.Result = "no lock chosen"
			b.need(d.Choice.Needs...)
		}
		b.runs(nil, false)
		return b.settle(), nil
	}
	b.circuit.Lock = b.words.lock(d.Choice)
	named, _ := doorsched.SupplyName.In(d.View).Get()
	// A controller at the door feeds the lock unless a supply is named for it.
	atDoor := b.circuit.Controller == "door" && strings.TrimSpace(named) == ""
	load := b.lockLoad()
	f := b.feed(atDoor)
	s := b.standby(atDoor)
	if load.known {
		b.lockVoltage(load, f, s)
	}
	if b.locks() > 1 {
		b.assume(doorsched.NoField, "cable of each lock", "a run of its own", "the door has more than one lock; currents are taken as those of one")
	}
	if b.circuit.Controller == "door" && (load.known || !atDoor) {
		b.port(load, f)
	}
	b.runs(&f.segments[0], atDoor)
	if atDoor {
		b.circuit.Result = join(b.circuit.Result, "fed by the controller at the door, through its switch port")
		return b.settle(), nil
	}
	m := b.member(load, s)
	return b.settle(), m
}

// place says where the controller is, as far as it is given.
func (b *bench) place() {
	switch where, _ := doorsched.ControllerPlace.In(b.door.View).Get(); where {
	case "door", "closet":
		b.circuit.Controller = string(where)
	}
}
