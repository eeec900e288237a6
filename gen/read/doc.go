// Package read finds the door schedule in a CSV file or a workbook (.xlsx, .xlsm)
// and reads it whole: header, units, values with their cells, and everything it
// could not make sense of.
//
// It is for programs that take in other people's schedules. Nothing about the
// file is fixed: the header may stand anywhere in the first rows, over one to
// four rows, with group labels whose merges are lost; headings are the trade's
// words of either side of the Atlantic or the machine names of the field table.
// A cell that cannot be read leaves its field Unknown and is returned in
// Result.Problems; a column that is not recognised is returned in
// Result.Columns. Only a file that holds no door schedule at all is an error.
//
// Cells are counted as a spreadsheet shows them: a quoted CSV field may hold
// line breaks and still is one row, and blank lines count.
package read
