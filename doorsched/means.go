package doorsched

import (
	"fmt"
	"strings"
)

// Means is one way by which a lock lets go or a held door closes.
type Means uint16

// The means, one bit each.
const (
	BySensor         Means = 1 << iota // detects a person approaching on the egress side
	ByHardwareSwitch                   // a switch in the hardware on the leaf
	ByButton                           // a push button beside the door
	ByFireAlarm
	BySprinkler
	BySmoke // smoke or heat detection
	ByPowerLoss
	ByRemote // a switch at an attended place
	ByStaffKey
	ByFusibleLink
	BySystemError // failure of the controller or its wiring
	ByManualSwitch
	ByEmergencyRelease // an emergency door release unit at the door
	meansEnd
)

var meansNames = []struct {
	m       Means
	name    string
	aliases []string
}{
	{BySensor, "sensor", []string{"exit_sensor", "motion_sensor", "pir"}},
	{ByHardwareSwitch, "hardware_switch", []string{"switch_in_hardware"}},
	{ByButton, "button", []string{"exit_button", "push_to_exit"}},
	{ByFireAlarm, "fire_alarm", []string{"alarm"}},
	{BySprinkler, "sprinkler", []string{"waterflow"}},
	{BySmoke, "smoke", []string{"smoke_detection", "detection", "heat"}},
	{ByPowerLoss, "power_loss", []string{"supply_failure"}},
	{ByRemote, "remote", nil},
	{ByStaffKey, "key_staff", []string{"staff_key"}},
	{ByFusibleLink, "fusible_link", nil},
	{BySystemError, "system_error", nil},
	{ByManualSwitch, "manual_switch", []string{"manual"}},
	{ByEmergencyRelease, "emergency_release", nil},
}

// String lists the means by name, joined with "+".
func (m Means) String() string {
	var out []string
	for _, n := range meansNames {
		if m&n.m != 0 {
			out = append(out, n.name)
		}
	}
	return strings.Join(out, "+")
}

// MeansSet says of each Means whether it is there, is not, or is Unknown.
// Its zero value knows nothing.
type MeansSet struct{ known, yes Means }

// ExactlyMeans is a complete set: the means named are there, all others are not.
func ExactlyMeans(m Means) MeansSet { return MeansSet{known: meansEnd - 1, yes: m} }

// OneMeans knows about m only.
func OneMeans(m Means, there bool) MeansSet {
	s := MeansSet{known: m}
	if there {
		s.yes = m
	}
	return s
}

// Has answers whether every means of m is there.
func (s MeansSet) Has(m Means) Answer {
	switch {
	case s.known&m&^s.yes != 0:
		return No
	case s.yes&m == m:
		return Yes
	}
	return Unknown
}

// HasAny answers whether at least one means of m is there.
func (s MeansSet) HasAny(m Means) Answer {
	switch {
	case s.yes&m != 0:
		return Yes
	case s.known&m == m:
		return No
	}
	return Unknown
}

// Merge adds what t knows; where both know, t wins.
func (s MeansSet) Merge(t MeansSet) MeansSet {
	return MeansSet{known: s.known | t.known, yes: s.yes&^t.known | t.yes}
}

// Yes returns the means known to be there.
func (s MeansSet) Yes() Means { return s.yes }

// Complete reports whether every means is known to be there or not.
func (s MeansSet) Complete() bool { return s.known == meansEnd-1 }

// String writes {sensor,button}; with an ellipsis where some means are Unknown.
func (s MeansSet) String() string {
	body := strings.ReplaceAll(s.yes.String(), "+", ",")
	if !s.Complete() {
		if body != "" {
			body += ","
		}
		body += "…"
	}
	return "{" + body + "}"
}

// ParseMeans reads {sensor,button}, "sensor, button" or "none" as a complete set.
func ParseMeans(s string) (MeansSet, error) {
	body := strings.TrimSpace(s)
	body = strings.TrimSuffix(strings.TrimPrefix(body, "{"), "}")
	var m Means
	open := false
	for _, part := range strings.FieldsFunc(body, func(r rune) bool { return r == ',' || r == ';' || r == '+' || r == '/' }) {
		p := canonName(part)
		switch p {
		case "", "none":
			continue
		case "…":
			open = true
			continue
		}
		bit, ok := meansByName(p)
		if !ok {
			return MeansSet{}, fmt.Errorf("unknown means %q (known: %s)", strings.TrimSpace(part), strings.ReplaceAll((meansEnd-1).String(), "+", ", "))
		}
		m |= bit
	}
	if open {
		return MeansSet{known: m, yes: m}, nil
	}
	return ExactlyMeans(m), nil
}

func meansByName(p string) (Means, bool) {
	for _, n := range meansNames {
		if n.name == p {
			return n.m, true
		}
		for _, a := range n.aliases {
			if a == p {
				return n.m, true
			}
		}
	}
	return 0, false
}
