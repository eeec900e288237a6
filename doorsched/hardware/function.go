package hardware

import (
	"slices"

	"example.com/lockrail/doorsched"
)

// LockFunction is one function number of a BHMA lock standard.
type LockFunction struct {
	Standard string // ANSI/BHMA number: A156.13 mortise, A156.2 bored, A156.3 exit device trim
	Number   string
	Name     string
	Keyed    int // keyed points; -1 where not seen
	DeadBolt bool
	Status   doorsched.Status
}

// lockFunctions are the functions a set of ours can call for, with how far each
// number was seen (of several only the name was; see Status).
var lockFunctions = []LockFunction{
	{"A156.13", "F01", "passage", 0, false, doorsched.Verified},
	{"A156.13", "F02", "privacy", 0, false, doorsched.Verified},
	{"A156.13", "F04", "office / entry", 1, false, doorsched.Verified},
	{"A156.13", "F05", "classroom", 1, false, doorsched.Memory},
	{"A156.13", "F07", "storeroom", 1, false, doorsched.Verified},
	{"A156.13", "F13", "corridor / dormitory", 1, true, doorsched.Verified},
	{"A156.13", "F15", "hotel / guest room", 1, true, doorsched.Verified},
	{"A156.13", "F19", "privacy with bolt", 0, true, doorsched.Verified},
	{"A156.13", "F20", "apartment / exit / entrance with deadbolt", 1, true, doorsched.Memory},
	{"A156.2", "F75", "passage", 0, false, doorsched.Verified},
	{"A156.2", "F76", "privacy", 0, false, doorsched.Verified},
	{"A156.2", "F82", "entry / office", 1, false, doorsched.Verified},
	{"A156.2", "F84", "classroom", 1, false, doorsched.Verified},
	{"A156.2", "F86", "storeroom", 1, false, doorsched.Verified},
	{"A156.3", "01", "exit only, no outside trim", 0, false, doorsched.Memory},
	{"A156.3", "03", "night latch (key retracts latch)", 1, false, doorsched.Memory},
	{"A156.3", "08", "entrance lever, key locks/unlocks lever", 1, false, doorsched.Verified},
	{"A156.3", "09", "storeroom lever, key each time", 1, false, doorsched.Verified},
	{"A156.3", "14", "passage lever always free", 0, false, doorsched.Verified},
}

// LockFunctions returns the table of functions.
func LockFunctions() []LockFunction { return slices.Clone(lockFunctions) }

func lockFunction(standard, number string) (LockFunction, bool) {
	i := slices.IndexFunc(lockFunctions, func(f LockFunction) bool { return f.Standard == standard && f.Number == number })
	if i < 0 {
		return LockFunction{}, false
	}
	return lockFunctions[i], true
}

// String writes "F07 storeroom", with the status where the number was not seen.
func (f LockFunction) String() string {
	s := f.Number + " " + f.Name
	if f.Status == doorsched.Memory {
		s += " (number to be checked)"
	}
	return s
}

// useFunctions is the lock function by what the door serves (common practice):
// mortise, then its bored peer, then the trim of an exit device.
var useFunctions = []struct {
	uses                 []doorsched.Choice
	mortise, bored, trim string
}{
	{[]doorsched.Choice{"office", "suite_exit"}, "F04", "F82", "08"},
	{[]doorsched.Choice{"classroom", "education", "assembly_room", "courtroom", "worship"}, "F05", "F84", "08"},
	{[]doorsched.Choice{"storage", "equipment", "electrical", "mechanical", "janitor", "closet", "comms_room", "cash_room",
		"transformer_vault", "battery_room", "ess_room", "modular_data_center", "refrigeration_machinery", "roof_unoccupied"}, "F07", "F86", "09"},
	{[]doorsched.Choice{"stair", "stair_discharge", "exit_passageway", "exit_enclosure", "corridor_cross", "smoke_barrier", "room", "elevator_lobby"}, "F01", "F75", "14"},
	{[]doorsched.Choice{"toilet"}, "F02", "F76", "14"},
	{[]doorsched.Choice{"unit_entry"}, "F20", "F82", "08"},
	{[]doorsched.Choice{"main_entrance", "exit_exterior"}, "F05", "F84", "03"},
}

// functionOf returns the function number of a lock of the given standard on a
// door's use; ok is false where the use is not known or no practice stands.
func functionOf(use doorsched.Choice, standard string) (LockFunction, bool) {
	for _, u := range useFunctions {
		if !slices.Contains(u.uses, use) {
			continue
		}
		number := map[string]string{"A156.13": u.mortise, "A156.2": u.bored, "A156.3": u.trim}[standard]
		return lockFunction(standard, number)
	}
	return LockFunction{}, false
}
