package hardware_test

import (
	"strings"
	"testing"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/hardware"
)

// operationLine returns the sentence that begins with head.
func operationLine(tb testing.TB, e doorsched.Edition, head string, pairs ...string) string {
	tb.Helper()
	v := door(tb, "1", pairs...)
	c := hardware.Choose(v, e)
	for _, l := range hardware.Operation(v, e, c, hardware.Derive(v, e, c)) {
		if rest, ok := strings.CutPrefix(l, head+": "); ok {
			return rest
		}
	}
	return ""
}

func TestOperation(t *testing.T) {
	us, uk := doorsched.IBC2021, doorsched.England2019
	magnet := []string{"lock", "electromagnetic", "hw", "push_pull", "latch", "no"}
	strike := []string{"lock", "electric_strike", "hw", "lever"}
	tests := []struct {
		name    string
		edition doorsched.Edition
		fields  []string
		head    string
		want    string
	}{
		{"battery unknown", us, magnet, "Mains lost, on battery", "not said"},
		{"held on battery", us, append([]string{"held_on_battery", "yes", "battery_hours", "4"}, magnet...), "Mains lost, on battery", "stays locked for 4 h"},
		{"not held on battery", us, append([]string{"held_on_battery", "no"}, magnet...), "Mains lost, on battery", "unlocks at once"},
		{"no battery", us, append([]string{"lock_psu_battery", "no"}, magnet...), "Mains lost, on battery", "no battery"},
		{"all power lost, safe", us, magnet, "All power lost", "the lock unlocks."},
		{"all power lost, secure", us, append([]string{"fail", "secure"}, strike...), "All power lost", "stays locked from outside; the lever still opens"},
		{"secure with no way out is said", us, []string{"lock", "power_bolt", "fail", "secure", "hw", "push_pull", "latch", "no"}, "All power lost", "nobody gets out"},
		{"fail state unknown", us, append([]string{"fail", "na"}, strike...), "All power lost", "not said"},
		{"safe strike frees the latch", us, append([]string{"fail", "safe"}, strike...), "All power lost", "no longer holds the latch"},
		{"alarm with no system", us, append([]string{"fire_alarm", "no"}, magnet...), "Fire alarm", "none"},
		{"alarm unknown", us, magnet, "Fire alarm", "whether the building has an alarm is not said"},
		{"alarm and free exit", us, strike, "Fire alarm", "people leave by the lever"},
		{"rated latch retraction", us, []string{"lock", "electrified_panic", "hw", "fire_exit", "fire_rating", "90 min"}, "Fire alarm", "latch held back is let go"},
		{"controller, US magnet", us, magnet, "Controller dead", "not said"},
		{"controller, UK magnet", uk, magnet, "Controller dead", "the lock unlocks"},
		{"link, UK magnet", uk, magnet, "Alarm link open", "category A"},
		{"link, US magnet", us, magnet, "Alarm link open", "not said"},
		{"US exit", us, magnet, "Exit", "PUSH TO EXIT"},
		{"UK exit", uk, magnet, "Exit", "green unit"},
		{"delay not given", us, []string{"lock", "delayed_egress", "mechanical_egress", "no"}, "Exit", "not given in the schedule"},
		{"delay given", us, []string{"lock", "delayed_egress", "mechanical_egress", "no", "delay", "15 s"}, "Exit", "delay of 15 s"},
		{"access unknown", us, nil, "Entry", "not said"},
		{"mechanical", us, []string{"access_controlled", "no"}, "Loss of power", "changes nothing"},
		{"held open", uk, []string{"access_controlled", "no", "fire_rating", "FD30", "hold_open", "magnetic"}, "Hold-open", "let go by the fire alarm"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := operationLine(t, tt.edition, tt.head, tt.fields...); !strings.Contains(got, tt.want) {
				t.Errorf("%s: %q does not say %q", tt.head, got, tt.want)
			}
		})
	}
}
