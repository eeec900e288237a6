package cable

// Status says how far a value may be trusted.
type Status string

const (
	Verified Status = "verified" // a published copy was seen, nearly always a secondary one
	Memory   Status = "memory"   // known but not seen: to be checked
	Practice Status = "practice" // the trade does so
	Derived  Status = "derived"  // calculated from values that carry another status
)

// Source is where a value comes from.
type Source struct {
	Text   string `json:"text"`
	Status Status `json:"status"`
}

// String prints the source so that a remembered one can not pass for a seen one.
func (s Source) String() string {
	switch s.Status {
	case Verified:
		return s.Text
	case Memory:
		return s.Text + " (from memory, to be checked)"
	case Practice:
		return s.Text + " (common practice)"
	case Derived:
		return s.Text + " (derived)"
	}
	return s.Text + " (no status)"
}

// Assumption is a default that was taken because the caller gave nothing.
type Assumption struct {
	What   string `json:"what"`
	Value  string `json:"value"`
	Why    string `json:"why"`
	Source Source `json:"source"`
}
