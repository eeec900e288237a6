package wiring

import (
	"example.com/lockrail/cable"
	"example.com/lockrail/doorsched"
	"example.com/lockrail/power"
)

// standby is what is known about the battery behind a lock.
type standby struct {
	hours  entry[float64]
	fitted doorsched.Answer // is there a battery at all
	held   doorsched.Answer // do fail-safe locks stay locked on it
	// counts: the lock is held on the battery, or must be let go by power from it.
	counts doorsched.Answer
}

// mostHours is beyond any standby asked for (a leap year and more).
const mostHours = 9000

// standby reads it. A lock that hangs on the controller at the door has none here:
// the standby of the switch port is not ours to calculate.
func (b *bench) standby(atDoor bool) standby {
	if atDoor {
		return standby{fitted: doorsched.No, counts: doorsched.No}
	}
	s := standby{hours: read(b.door.View, doorsched.BatteryHours)}
	if s.hours.known && !(s.hours.value >= 0 && s.hours.value <= mostHours) {
		b.unusable(doorsched.BatteryHours.ID(), "must be from 0 to 9000 hours")
		s.hours = entry[float64]{}
	}
	s.held = doorsched.HeldOnBattery.In(b.door.View).Or(doorsched.Unknown)
	s.fitted = doorsched.LockPSUBattery.In(b.door.View).Or(doorsched.Unknown)
	if s.fitted == doorsched.Unknown && s.hours.known {
		s.fitted = doorsched.AnswerOf(s.hours.value > 0)
	}
	s.counts = s.fitted
	if b.door.Choice.Fail == "safe" {
		s.counts = s.counts.And(s.held)
	}
	if !s.hours.known && s.fitted != doorsched.No {
		b.need(doorsched.BatteryHours.ID())
	}
	if s.fitted != doorsched.No && b.door.Choice.Fail == "safe" && s.held == doorsched.Unknown {
		b.need(doorsched.HeldOnBattery.ID())
	}
	return s
}

func (s standby) backup() power.Backup {
	switch s.fitted {
	case doorsched.Yes:
		return power.BackupFitted
	case doorsched.No:
		return power.BackupNone
	}
	return power.BackupUnknown
}

// supply is a supply with its voltages filled in and what was assumed for that. A
// battery that does not count is taken off afterwards, so that its charger still does.
func (s standby) supply(nominal cable.Volts) (power.Supply, []cable.Assumption, error) {
	supply, assumed, err := power.Supply{Nominal: nominal, Backup: s.backup()}.Complete()
	if err == nil && s.counts == doorsched.No {
		supply.Backup = power.BackupNone
	}
	return supply, assumed, err
}
