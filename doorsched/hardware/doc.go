// Package hardware chooses the lock of a door, derives its complete hardware
// set, groups and numbers sets, and words the sequence of operation. It is for
// consultants and estimators who must say which items a door gets, how many, by
// which rule, and what is still needed to say it; wiring and take-off build on
// its items and their roles.
//
// Choose tries every lock that leaf, frame, label, latch and pair admit and has
// each judged by doorsched/egress; a lock the schedule gives is judged and never
// replaced. Derive fills the set in the order of the region's trade. A missing
// field never stops either: the item says what it needs, and every default is
// returned as an assumption.
//
// The quantity rules are published practice with their status kept beside them.
// A set is a proposal for a competent person to check against the listing or
// certificate of the door, the local code and the authority having jurisdiction.
package hardware

//go:generate go test . -update
