// Package report writes a result as JSON Lines for machines and as plain text
// for people. It is for the command and for programs that pass results on.
//
// JSON Lines: one object a line, "kind" first, keys in a fixed order. A key that
// is absent means Unknown; a known zero is printed. Decimals are fixed by
// quantity: volts 3, metres 2, percent 1, millimetres 2. Keys are never removed;
// new ones may come, and then the summary's schema changes.
package report
