// Package demo builds the demo schedules of an invented building, the Marram
// Point ferry terminal, and is for anyone who wants to try lockrail, teach it
// or test against it without a client's drawings.
//
// The doors live once, as a table in this package; the American schedule in feet
// and inches, the same as CSV, and the British schedule in millimetres are
// written from it. The schedules look as an architect's and an estimator's do:
// title rows, stacked headings with merged groups, level rows, totals, formulas,
// notes, a filter, and headings of their own that no reader knows.
//
// Some doors are right, some break a rule on purpose, some say too little, one
// gets too little voltage at the end of its cable, some are out of scope. Each
// door carries the verdict it is meant to get on each edition. Nothing here is
// advice: do not copy a door out of the demo into a building.
package demo

//go:generate go test . -update
