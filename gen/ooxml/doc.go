// Package ooxml reads and patches an .xlsx or .xlsm package without disturbing
// what it does not own. It is for writers that add cells and sheets to a
// workbook that belongs to somebody else, and for readers that must not lose a
// value silently.
//
// [Open] is a preflight: the whole file is inflated once under limits, every
// checksum is checked, and what could not be read truly is refused with an
// [*Error]. [Package.Scan] gives the cells of one worksheet in a single pass.
// [Patch] applies a [Plan] and copies every entry it does not touch as the
// compressed bytes it found; a touched part changes only where the plan says.
// Applying a plan to its own output changes nothing.
//
// The package knows the file format (ECMA-376 part 1, transitional, in the
// packaging of part 2) and nothing about what the cells mean. Rows and columns
// count from 1 throughout.
package ooxml
