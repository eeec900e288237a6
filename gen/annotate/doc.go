// Package annotate writes a result back into the user's own workbook: result
// columns beside the schedule and sheets of ours at the end. It is for programs
// that give a door schedule back to the person it came from.
//
// Nothing of the user's changes: not a cell, not a style, and every part of the
// file that had no need to grow stays the very bytes it was. What is ours is
// known again by hidden defined names, never by title, so annotating an
// annotated workbook rewrites it in place and, with the same result, gives the
// same bytes.
//
// Beside each verdict stands what it was judged on, as text, and a formula that
// rebuilds that text from the live cells: once a judged cell differs, it says
// CHANGED.
package annotate

//go:generate go test . -update
