package wiring

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"example.com/lockrail/cable"
	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/hardware"
	"example.com/lockrail/power"
)

const (
	defaultLength  cable.Metres = 30 // a planning figure from closet to door (common practice)
	localLength    cable.Metres = 5  // from a controller above the door to its devices (common practice)
	transferLength cable.Metres = 1  // through the hinge side (common practice)
	mostParallel                = 16
)

// feed is how the lock is fed: the segments from the supply to it.
type feed struct {
	segments []power.Segment
	// firm: length and size were given, so that a finding may rest on them.
	firm bool
	// atDoor: the lock hangs on the controller at the door, not on a supply.
	atDoor bool
}

const mainSegment = "cable"

// feed reads the run from the supply to the lock.
func (b *bench) feed(atDoor bool) feed {
	temperature := b.temperature()
	conductor, firmSize := b.conductor(doorsched.CableSize, b.defaultConductor(), "the usual cable for a lock")
	length := b.homeRun()
	if atDoor {
		length = entry[cable.Metres]{value: localLength}
		b.assume(doorsched.NoField, "run from the controller at the door to the lock", b.words.length(localLength), "not asked for; a planning figure")
	}
	run := cable.Run{Conductor: conductor, Length: length.value, Parallel: b.parallel(), Temperature: temperature}
	f := feed{firm: firmSize && length.firm, atDoor: atDoor, segments: []power.Segment{{Name: mainSegment, Run: run}}}
	if b.throughTransfer() {
		f.segments = append(f.segments, b.transferSegment(temperature))
	}
	return f
}

// homeRun is the run from closet or supply to the door.
func (b *bench) homeRun() entry[cable.Metres] {
	length := b.lengthOf(doorsched.CableLength)
	if length.known {
		return length
	}
	b.need(doorsched.CableLength.ID())
	b.assume(doorsched.CableLength.ID(), "", b.words.length(defaultLength), "not given; a planning figure")
	return entry[cable.Metres]{value: defaultLength}
}

func (b *bench) temperature() cable.Temperature {
	t := read(b.door.View, doorsched.AmbientC)
	if t.known {
		at := cable.At(cable.Celsius(t.value))
		// The tables' own check of the range decides.
		_, err := cable.Run{Conductor: b.defaultConductor(), Length: 1, Temperature: at}.Loop()
		if err == nil {
			return at
		}
		b.unusable(doorsched.AmbientC.ID(), why(err))
	}
	b.assume(doorsched.AmbientC.ID(), "", doorsched.FormatNumber(float64(cable.DefaultTemperature), 1)+" °C", "conductor temperature not given; indoor run, lightly loaded")
	return cable.At(cable.DefaultTemperature)
}

// why is the reason of an error about an input, without what the input was.
func why(err error) string {
	var input *cable.InputError
	if errors.As(err, &input) {
		return input.Why
	}
	return err.Error()
}

func (b *bench) defaultConductor() cable.Conductor {
	usual, _ := cable.FindCable(b.words.cable)
	return usual.Conductor
}

// conductor reads a size as the schedule writes it: "18AWG", "1.5 mm2", or the
// name of a generic cable, "18/2".
func (b *bench) conductor(f doorsched.Field[string], usual cable.Conductor, reason string) (c cable.Conductor, firm bool) {
	text := read(b.door.View, f)
	if text.known {
		if c, err := parseConductor(text.value); err == nil {
			return c, text.firm
		} else {
			b.unusable(f.ID(), why(err))
		}
	}
	b.assume(f.ID(), "", usual.Size.String(), "not given; "+reason)
	return usual, false
}

func parseConductor(text string) (cable.Conductor, error) {
	if named, ok := cable.FindCable(strings.TrimSpace(text)); ok && named.Conductor.Size.Given() {
		return named.Conductor, nil
	}
	size, err := cable.ParseSize(text)
	return cable.Conductor{Size: size}, err
}

// parallel is the cores used together for each pole.
func (b *bench) parallel() int {
	cores := read(b.door.View, doorsched.CableCores)
	switch {
	case !cores.known:
		b.assume(doorsched.CableCores.ID(), "", "1", "not given; one core out and one back")
	case cores.value < 1 || cores.value > mostParallel:
		b.unusable(doorsched.CableCores.ID(), "must be from 1 to "+strconv.Itoa(mostParallel))
	default:
		return int(cores.value)
	}
	return 1
}

// throughTransfer reports whether the lock's conductors cross the hinge side: the
// set has a transfer and the lock is on the leaf. A strike or a magnet stays on
// the frame even where the leaf carries a wired switch.
func (b *bench) throughTransfer() bool {
	switch b.door.Choice.Lock {
	case "electric_strike", "electromagnetic", "controlled_egress":
		return false
	}
	for _, role := range b.door.Set.AllRoles() {
		if role.Device == hardware.DeviceTransfer {
			return true
		}
	}
	return false
}

func (b *bench) transferSegment(t cable.Temperature) power.Segment {
	usual := cable.Conductor{Size: b.transferID, Construction: cable.Stranded}
	conductor, _ := b.conductor(doorsched.TransferSize, usual, "a usual conductor through a "+b.transfer)
	length := b.lengthOf(doorsched.TransferLength)
	if !length.known {
		length.value = transferLength
		b.assume(doorsched.TransferLength.ID(), "", b.words.length(transferLength), "not given; a planning figure")
	}
	return power.Segment{Name: b.transfer, Run: cable.Run{Conductor: conductor, Length: length.value, Temperature: t}}
}

// describe says a run: "18 AWG, 2 cores each way".
func describe(r cable.Run) string {
	if r.Parallel > 1 {
		return fmt.Sprintf("%s, %d cores each way", r.Conductor.Size, r.Parallel)
	}
	return r.Conductor.Size.String()
}
