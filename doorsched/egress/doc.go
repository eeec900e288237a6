// Package egress judges doors for escape, fire and access on one edition of the
// rules. It is for anyone who must say of a door what was checked, what is
// broken and under which clause, and what could not be judged for want of which
// field.
//
// A rule is a value: its slug, what it protects, the fields it reads, the rows
// of published requirements it covers, its citation per edition, one function
// that judges and one that says. Judging is three-valued: a condition known to
// be false settles a rule whatever else is missing, and a missing field never
// counts as false.
//
// The rules are a reading of model codes and guidance. They defer to the local
// code, the authority having jurisdiction and licensed practice.
//
//go:generate go test . -run "Scenarios|Document" -update
package egress
