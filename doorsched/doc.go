// Package doorsched holds what a door schedule says, in the words of the trade:
// doors, the places they stand in, the one table of fields, exact lengths, fire
// ratings, and the words in which a door is judged (verdicts, findings,
// queries, assumptions).
//
// It is for programs that read, judge, price or write door schedules, and for
// other Go tools that need the same vocabulary. It reads no files, knows no
// rules and draws no conclusions: doorsched/egress judges, doorsched/hardware
// chooses, doorsched/wiring calculates.
//
// A field that was not given is Unknown, never false and never zero. Every
// value carries its origin (given, answered, assumed, derived) and, where it
// came from a sheet, its cell.
package doorsched
