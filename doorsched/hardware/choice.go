package hardware

import "example.com/lockrail/doorsched"

// Who a lock comes from.
const (
	BySchedule = "schedule" // given: judged, never replaced
	ByProposal = "proposed"
)

// Candidate is one lock that was tried on a door.
type Candidate struct {
	Name     string // "electric strike, fail secure, 24 V, lever"
	Lock     doorsched.Choice
	Fail     doorsched.Choice // empty for a mechanical lock
	Volts    float64          // 0 for a mechanical lock
	Hardware doorsched.Choice // what a person works to leave: values of field hw
	Latch    doorsched.Choice // values of field latch_type
	// Release is the arrangement of a lock without free mechanical exit: values
	// of field release in the US, "emergency_release" in the UK, else empty.
	Release string

	Verdict     doorsched.Verdict
	Conflicts   int  // findings that are conflicts
	Approvals   int  // findings that need the authority
	FreeExit    bool // a person leaves by hardware on the leaf whatever the lock does
	Releases    int  // electrical conditions that must work to leave
	WithinLabel doorsched.Answer
	SiteWork    int // 0 none beyond wiring the frame … 3 leaf and frame cut on site
	CostRank    int // order of usual cost; not a price
	Reason      string
	Overlay     doorsched.Record // only fields that the schedule does not give
}

// Refusal is a lock that was not tried, with the reason.
type Refusal struct {
	Lock   doorsched.Choice
	Fail   doorsched.Choice // empty: every fail state
	Reason string
}

// Choice is the lock of one door. It may be shared between equal doors: treat it
// as read-only.
type Choice struct {
	Lock   doorsched.Choice // values of field lock; empty where nothing was chosen
	Fail   doorsched.Choice
	Volts  float64
	By     string // BySchedule, ByProposal, or empty where nothing was chosen
	FailBy string // the fail state may be proposed for a given lock
	// AccessControlled is the answer the choice was made on: an electric lock or
	// a reader in the schedule counts as Yes.
	AccessControlled doorsched.Answer
	Needs            []doorsched.FieldID
	Notes            []string
	Candidates       []Candidate // best first; the first is the choice
	Refused          []Refusal
	Overlay          doorsched.Record // the proposed fields of the choice
}

// Best returns the chosen candidate.
func (c Choice) Best() (Candidate, bool) {
	if len(c.Candidates) == 0 {
		return Candidate{}, false
	}
	return c.Candidates[0], true
}

// Electric reports whether the chosen lock needs power.
func (c Choice) Electric() bool { return isElectric(c.Lock) }

func isElectric(lock doorsched.Choice) bool {
	switch lock {
	case "", "none", "mechanical":
		return false
	}
	return true
}
