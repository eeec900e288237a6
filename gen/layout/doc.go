// Package layout is the one table of what lockrail adds to a workbook: its
// sheets, their columns, the result columns beside the schedule, the defined
// names by which they are recognised again, and the colours of the verdicts.
// Writers write from it and readers recognise by it; nothing else knows a title.
//
// It is for the packages that read or write workbooks. It is a leaf beside them.
package layout
