package egress

import (
	"slices"

	"example.com/lockrail/doorsched"
)

// allRules is the list of rules, sorted by slug.
var allRules = []*Rule{
	accessMonitoring,
	accessibleWidth,
	alarmActuation,
	barLength,
	clearWidth,
	combinedLoad,
	controlledEgress,
	delayedEgress,
	edgeGaps,
	electricItemsEvidence,
	emergencyReleaseUnit,
	escapeLockRelease,
	exitCapacity,
	exitDeviceSwing,
	fireDoorClosing,
	fireDoorLatching,
	fireExitHardware,
	freeEgress,
	hardwareHeight,
	hardwareRelease,
	hingeGrade,
	holdOpen,
	inactiveLeafBolts,
	lockAcrossExitDevice,
	lockedPublicExit,
	oneMotion,
	onlyFastening,
	openingForce,
	openingKind,
	pairClosingOrder,
	panicHardware,
	publicEntranceWidth,
	sensorRelease,
	smokeLeakage,
	stairReentry,
	strikeFailState,
	swingDirection,
	wallRating,
}

// Rules lists every rule, sorted by slug. The slice is made anew; the rules are
// shared and must not be changed.
func Rules() []*Rule { return slices.Clone(allRules) }

// rulesByEdition is made once so that judging a door makes no list.
var rulesByEdition = func() map[doorsched.Edition][]*Rule {
	out := map[doorsched.Edition][]*Rule{}
	for _, e := range doorsched.Editions() {
		for _, r := range allRules {
			if r.On(e.ID) {
				out[e.ID] = append(out[e.ID], r)
			}
		}
	}
	return out
}()

func rulesOf(e doorsched.Edition) []*Rule { return rulesByEdition[e] }
