package layout

// Words is one text in both regions' vocabulary.
type Words struct{ US, UK string }

// In returns the text for a region ("UK", or anything else for US).
func (w Words) In(region string) string {
	if region == "UK" {
		return w.UK
	}
	return w.US
}

func both(s string) Words { return Words{s, s} }

// Column is one column of a table of ours.
type Column struct {
	Key   string // stable; titles may change
	Title Words
	Width float64 // in characters
	// Users marks a column that the user fills in: it is read back and kept.
	Users bool
}

// Sheet is one sheet of ours.
type Sheet struct {
	Key     string
	Title   Words
	Purpose Words // one line above the table
	Columns []Column
}

// Column returns the position, counted from 1, of a column; 0 if there is none.
func (s Sheet) Column(key string) int {
	for i, c := range s.Columns {
		if c.Key == key {
			return i + 1
		}
	}
	return 0
}

// Keys of the sheets.
const (
	Summary     = "summary"
	Findings    = "findings"
	Queries     = "queries"
	Sets        = "sets"
	Power       = "power"
	Cables      = "cables"
	Assumptions = "assumptions"
	Settings    = "settings"
)

// Sheets lists our sheets in the order in which they stand after the user's.
func Sheets() []Sheet {
	return []Sheet{
		{Summary, both("Summary"), both("What was judged, on which edition, and what comes next. One page."), []Column{
			{"item", both("Item"), 40, false}, {"value", both("Value"), 18, false}, {"note", both("Note"), 68, false},
		}},
		{Findings, both("Findings"), both("One line a finding: where it stands, what it says, the limit and the clause, and what would mend it."), []Column{
			{"door", both("Door"), 10, false}, {"severity", both("Severity"), 12, false}, {"rule", both("Rule"), 18, false},
			{"cells", both("Cells"), 10, false}, {"value", both("Value"), 13, false}, {"limit", both("Limit"), 13, false},
			{"message", both("What was found"), 50, false}, {"mend", both("What would mend it"), 36, false},
			{"citation", both("Document and clause"), 24, false},
		}},
		{Queries, Words{"Queries", "Queries"}, Words{
			"Questions (RFI) that unlock the doors named. Fill in the last columns: an answer without a name and a date stays an assumption.",
			"Questions that unlock the doors named. Fill in the last columns: an answer without a name and a date stays an assumption.",
		}, []Column{
			{"id", both("Query"), 18, false}, {"state", both("State"), 10, false}, {"question", both("Question"), 44, false}, {"of", both("Asked of"), 12, false},
			{"doors", both("Doors unlocked"), 10, false}, {"marks", both("Doors"), 26, false}, {"choices", both("Choices"), 18, false},
			{"raised", both("Raised"), 11, true}, {"to", both("To whom"), 14, true}, {"due", both("Due"), 11, true},
			{"answer", both("Answer"), 16, true}, {"by", both("Answered by"), 14, true}, {"date", both("Date"), 11, true},
		}},
		{Sets, Words{"Hardware sets", "Ironmongery sets"}, Words{
			"Proposed hardware sets, item by item. A number the schedule gave is kept; a set marked proposed is ours.",
			"Proposed ironmongery sets, item by item. A number the schedule gave is kept; a set marked proposed is ours.",
		}, []Column{
			{"set", both("Set"), 7, false}, {"by", both("Number by"), 10, false}, {"doors", both("Doors"), 20, false},
			{"qty", both("Quantity"), 9, false}, {"unit", both("Unit"), 6, false}, {"item", both("Item"), 28, false},
			{"leaf", both("Leaf"), 10, false}, {"function", both("Function or classification"), 20, false}, {"standard", both("Standard"), 20, false},
			{"size", both("Size"), 16, false}, {"finish", both("Finish"), 10, false}, {"action", both("Action"), 12, false}, {"why", both("Why, and by which rule"), 38, false},
			{"needs", both("Still needed"), 18, false},
		}},
		{Power, both("Power"), Words{
			"Voltage at each lock at its worst, from the supply's lowest to its highest output. Generic loads are common practice, not a product's data.",
			"Voltage at each lock at its worst, from the supply's lowest to its highest output. Generic loads are common practice, not a product's data.",
		}, []Column{
			{"door", both("Door"), 9, false}, {"lock", both("Lock"), 20, false}, {"supply", both("Supply"), 14, false},
			{"volts", both("Nominal (V)"), 9, false}, {"amps", Words{"Holding (A)", "Quiescent hold (A)"}, 9, false},
			{"inrush", both("Inrush (A)"), 9, false}, {"low", both("On mains, low (V)"), 10, false},
			{"battery", both("Battery end (V)"), 10, false}, {"high", both("Charger high (V)"), 10, false},
			{"min", both("Least the lock takes (V)"), 11, false}, {"max", both("Most the lock takes (V)"), 11, false},
			{"longest", both("Longest run (m)"), 10, false}, {"governs", both("What governs"), 20, false},
			{"result", both("Result"), 38, false}, {"basis", both("Calculated on"), 20, false},
		}},
		{Cables, both("Cables"), Words{
			"One line a run. Lengths marked assumed are ours until measured; raceway fill is worked out where a raceway is given.",
			"One line a run. Lengths marked assumed are ours until measured.",
		}, []Column{
			{"door", both("Door"), 10, false}, {"run", both("Run"), 20, false}, {"from", both("From"), 16, false}, {"to", both("To"), 16, false},
			{"cable", both("Cable"), 26, false}, {"conductor", both("Conductor"), 14, false}, {"cores", both("Cores"), 8, false},
			{"length", both("Length (m)"), 11, false}, {"by", both("Length by"), 12, false},
			{"raceway", Words{"Smallest EMT", "Containment"}, 14, false}, {"note", both("Note"), 36, false},
		}},
		{Assumptions, both("Assumptions"), both("Every default that was used in place of something not given. Give the field, and the assumption goes."), []Column{
			{"what", both("Field"), 26, false}, {"value", both("Value used"), 22, false}, {"reason", both("Why"), 60, false},
			{"by", both("Used by"), 16, false}, {"count", both("Doors"), 8, false}, {"marks", both("Which doors"), 44, false},
		}},
		{Settings, both("Settings"), both("Read back on the next run. Beside a field write the heading, or column H, that it is to be read from; for another field add a line."), []Column{
			{"setting", both("Setting"), 26, false}, {"value", both("Value"), 28, true}, {"note", both("What it means"), 70, false},
		}},
	}
}

// SheetByKey returns one of our sheets.
func SheetByKey(key string) (Sheet, bool) {
	for _, s := range Sheets() {
		if s.Key == key {
			return s, true
		}
	}
	return Sheet{}, false
}

// HeadRow and FirstRow are where every table of ours has its headings and its
// first line; the purpose stands in row 1.
const (
	PurposeRow = 1
	HeadRow    = 2
	FirstRow   = 3
)

// Results lists the result columns beside the schedule, door mark first so that
// a line that was sorted away from its row still says whose it is.
func Results() []Column {
	return []Column{
		{"mark", both("Door"), 10, false}, {"verdict", both("Verdict"), 18, false},
		{"changed", both("Since judged"), 14, false}, {"proposed", Words{"With our set", "With our set"}, 18, false},
		{"set", Words{"Hardware set", "Ironmongery set"}, 16, false}, {"lock", both("Lock"), 30, false},
		{"volts", both("At the lock (V)"), 15, false}, {"said", both("What to mind"), 64, false},
		{"judged", both("Judged on"), 60, false},
	}
}

// ResultColumn returns the position, counted from 1, of a result column.
func ResultColumn(key string) int {
	return Sheet{Columns: Results()}.Column(key)
}
