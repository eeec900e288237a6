// Package cable calculates low-voltage copper: the resistance of a conductor at
// its temperature, the voltage that is left at the end of a run, the longest run
// and the smallest size that hold, and how full a raceway is.
//
// It is for anyone who sizes wiring to electrified doors and for tools that do so.
// It knows no doors and no spreadsheets. Every printed value carries its Source,
// every default it had to take comes back as an Assumption, and every input that
// cannot be used is an error, never a panic, a NaN or an infinity.
//
// The answers are calculations on tables, not approvals: the adopted code, the
// authority having jurisdiction and a licensed person decide what is installed.
package cable
