// Package power calculates the supply of electrified doors: the voltage at a lock
// for every voltage its supply can have, power over Ethernet, batteries, and the
// load of a supply.
//
// It is for anyone who designs lock power and for tools that do so. It knows no
// doors. Generic loads and windows are ranges of the trade and results say when
// they rest on them; every default comes back as an assumption. What cannot be
// calculated is an error, never a panic, a NaN or an infinity.
//
// The answers are calculations, not approvals: the products' own data, the adopted
// code, the authority having jurisdiction and a licensed person decide.
package power
