// Package gen runs the pipeline: a door schedule in, one result out. It reads
// the file, judges every door, chooses locks and derives sets, wires and
// calculates them, and gathers queries and assumptions. Writers take it from
// there; gen calls none of them.
//
// It is for programs that embed the whole job. Those that need one station of
// it import doorsched/egress, doorsched/hardware, doorsched/wiring, power or
// cable instead.
package gen
