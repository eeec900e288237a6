package hardware

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/egress"
)

// Choose chooses the lock of one door on an edition.
func Choose(v doorsched.View, e doorsched.Edition) Choice { return choose(v, e) }

// Chooser chooses the locks of many doors on one edition and judges equal doors
// once. It is not for concurrent use.
type Chooser struct {
	edition doorsched.Edition
	seen    map[string]Choice
}

// NewChooser returns a chooser for an edition.
func NewChooser(e doorsched.Edition) *Chooser {
	return &Chooser{edition: e, seen: map[string]Choice{}}
}

// Choose chooses the lock of one door. Doors that differ only in what names them
// (mark, room, remarks, drawing details, cable) share one Choice.
func (c *Chooser) Choose(v doorsched.View) Choice {
	k := relevantKey(v)
	if hit, ok := c.seen[k]; ok {
		return hit
	}
	out := choose(v, c.edition)
	c.seen[k] = out
	return out
}

// Judged returns how many distinct doors were judged.
func (c *Chooser) Judged() int { return len(c.seen) }

func choose(v doorsched.View, e doorsched.Edition) Choice {
	var out Choice
	d, ok := look(v, e)
	if !ok {
		out.Notes = []string{fmt.Sprintf("edition %q cannot be judged: no lock is chosen", e)}
		return out
	}
	if egress.OutOfScope(v) {
		out.Notes = []string{"out of scope: no lock is chosen"}
		return out
	}
	given := word(v, doorsched.Lock)
	out.AccessControlled = accessAnswer(v)
	switch {
	case out.AccessControlled == doorsched.Unknown:
		out.Needs = append(out.Needs, doorsched.AccessControlled.ID())
		out.Notes = append(out.Notes, "not said whether the door is access controlled: the mechanical set only")
	case out.AccessControlled == doorsched.Yes && given != "" && !isElectric(given):
		out.Notes = append(out.Notes, "access controlled, but the schedule gives no electric lock: none is proposed in its place")
	case out.AccessControlled == doorsched.No && isElectric(given):
		out.Notes = append(out.Notes, "the schedule gives an electric lock and says that the door is not access controlled")
	}
	if d.rated == doorsched.Unknown && (isElectric(given) || given == "" && out.AccessControlled == doorsched.Yes) {
		out.Needs = append(out.Needs, doorsched.FireRating.ID())
	}
	tried, refused := d.candidates(out.AccessControlled)
	out.Refused = refused
	for i := range tried {
		d.judge(&tried[i])
		out.Candidates = append(out.Candidates, d.withVolts(tried[i])...)
	}
	slices.SortStableFunc(out.Candidates, Candidate.compare)
	best, ok := out.Best()
	if !ok {
		out.Notes = append(out.Notes, "no lock can be proposed for what the schedule gives: see the reasons against each")
		return out
	}
	out.Lock, out.Fail, out.Volts, out.Overlay = best.Lock, best.Fail, best.Volts, best.Overlay
	out.By, out.FailBy = ByProposal, ByProposal
	if given != "" {
		out.By = BySchedule
	} else if best.Conflicts > 0 {
		out.Notes = append(out.Notes, "every lock that fits leaves the door in conflict: the first is the one with the fewest")
	}
	switch {
	case best.Fail == "":
		out.FailBy = ""
	case doorsched.Fail.In(v).IsKnown():
		out.FailBy = BySchedule
	}
	return out
}

// compare ranks candidates: no conflict, then no approval, a free mechanical
// exit, fewest electrical conditions to leave, within label or certificate,
// least work on site, usual cost, name.
func (c Candidate) compare(d Candidate) int {
	return cmp.Or(
		cmp.Compare(c.Conflicts, d.Conflicts),
		cmp.Compare(c.Approvals, d.Approvals),
		cmp.Compare(noFirst(c.FreeExit), noFirst(d.FreeExit)),
		cmp.Compare(c.Releases, d.Releases),
		cmp.Compare(labelRank(c.WithinLabel), labelRank(d.WithinLabel)),
		cmp.Compare(c.SiteWork, d.SiteWork),
		cmp.Compare(c.CostRank, d.CostRank),
		strings.Compare(c.Name, d.Name),
	)
}

func noFirst(b bool) int {
	if b {
		return 0
	}
	return 1
}

func labelRank(a doorsched.Answer) int {
	switch a {
	case doorsched.Yes:
		return 0
	case doorsched.Unknown:
		return 1
	}
	return 2
}

// judge has the rules judge the door with the candidate on it. Only a door that
// the fast path finds at fault is judged again for the words.
func (d door) judge(c *Candidate) {
	v := d.view.With(&c.Overlay)
	v.Mark = "" // a shared choice names no door
	c.Verdict = egress.Worst(v, d.edn)
	against := ""
	if c.Verdict.AtLeast(doorsched.Approval) {
		for _, f := range egress.JudgeDoor(v, d.edn).Findings {
			switch f.Severity {
			case doorsched.Conflict:
				c.Conflicts++
			case doorsched.Approval:
				c.Approvals++
			default:
				continue
			}
			if against == "" {
				against = f.Message
			}
		}
	}
	c.Reason = d.reason(*c, against)
}

// reason says in one line why a candidate stands where it does.
func (d door) reason(c Candidate, against string) string {
	parts := []string{c.Verdict.String()}
	if against != "" {
		parts[0] += ": " + strings.TrimSuffix(against, ".")
	}
	if why := d.refuse(c.Lock, trim{c.Hardware, c.Latch}); why != "" {
		parts = append(parts, why)
	}
	if _, refused := d.fails(c.Lock); c.Fail != "" {
		for _, r := range refused {
			if r.Fail == c.Fail {
				parts = append(parts, r.Reason)
			}
		}
	}
	if isElectric(c.Lock) {
		if c.FreeExit {
			parts = append(parts, "the hardware on the leaf opens it whatever the lock does")
		} else {
			parts = append(parts, fmt.Sprintf("%d electrical conditions release it", c.Releases))
		}
		switch c.WithinLabel {
		case doorsched.No:
			parts = append(parts, "outside the fire label or certificate")
		case doorsched.Unknown:
			parts = append(parts, "label or certificate to be shown")
		}
		parts = append(parts, [...]string{"wired in the frame only", "wired or fixed on the leaf", "a cut in leaf edge or frame", "a cut through the leaf"}[min(c.SiteWork, 3)])
	}
	return strings.Join(parts, "; ")
}

// withVolts repeats a judged candidate at each voltage: the rules do not turn on it.
func (d door) withVolts(c Candidate) []Candidate {
	i := slices.IndexFunc(lockKinds, func(k lockKind) bool { return k.lock == c.Lock })
	var volts []float64
	if i >= 0 {
		volts = lockKinds[i].volts
	}
	if given, ok := doorsched.LockVolts.In(d.view).Get(); ok && len(volts) > 0 {
		volts = []float64{given}
	}
	if len(volts) == 0 {
		c.Name = d.name(c)
		return []Candidate{c}
	}
	var out []Candidate
	for n, u := range volts {
		x := c
		x.Volts, x.CostRank = u, c.CostRank+n
		x.Overlay = c.Overlay.Clone()
		fits(d.view, &x.Overlay, doorsched.LockVolts, u)
		x.Name = d.name(x)
		out = append(out, x)
	}
	return out
}

// namesOnly are the fields that no rule and no choice turns on: they name or
// describe the door, or belong to the wiring.
var namesOnly = func() map[doorsched.FieldID]bool {
	m := map[doorsched.FieldID]bool{}
	for _, f := range []doorsched.Field[string]{
		doorsched.Mark, doorsched.AssetTag, doorsched.TypeMark, doorsched.DoorType, doorsched.Level, doorsched.BuildingName,
		doorsched.RoomTo, doorsched.RoomFrom, doorsched.RoomName, doorsched.Remarks, doorsched.DoorMaterial, doorsched.DoorFinish,
		doorsched.FrameMaterial, doorsched.FrameType, doorsched.FrameFinish, doorsched.HeadDetail, doorsched.JambDetail, doorsched.SillDetail,
		doorsched.Glazing, doorsched.Handing, doorsched.Lintel, doorsched.Sidelight, doorsched.SpecRef, doorsched.SignType,
		doorsched.HardwareSet, doorsched.LockText, doorsched.KeySet, doorsched.HingeText, doorsched.LeverText, doorsched.PullText,
		doorsched.PushPlateText, doorsched.StopText, doorsched.ProtectionText, doorsched.SealText, doorsched.ThresholdText,
		doorsched.SpecialText, doorsched.AccessText, doorsched.CableSize, doorsched.TransferSize, doorsched.Closet, doorsched.SupplyName,
	} {
		m[f.ID()] = true
	}
	m[doorsched.CableLength.ID()] = true
	m[doorsched.TransferLength.ID()] = true
	m[doorsched.CableCores.ID()] = true
	m[doorsched.ControllerPlace.ID()] = true
	return m
}()

var fieldCount = len(doorsched.Fields())

// relevantKey writes every value that a choice may turn on.
func relevantKey(v doorsched.View) string {
	var b []byte
	for id := doorsched.FieldID(1); int(id) <= fieldCount; id++ {
		if namesOnly[id] {
			continue
		}
		x, ok := v.Get(id)
		if !ok {
			continue
		}
		b = strconv.AppendUint(b, uint64(id), 10)
		b = append(b, '=')
		switch d := x.Data.(type) {
		case doorsched.Length:
			b = strconv.AppendInt(b, int64(d), 10)
		case int64:
			b = strconv.AppendInt(b, d, 10)
		case float64:
			b = strconv.AppendFloat(b, d, 'g', -1, 64)
		case doorsched.Answer:
			b = append(b, byte('0'+d))
		case doorsched.MeansSet:
			for m := doorsched.Means(1); m != 0; m <<= 1 {
				b = append(b, byte('0'+d.Has(m)))
			}
		case doorsched.Rating:
			b = fmt.Appendf(b, "%d/%s/%d", d.Minutes, d.System, d.Smoke)
		default:
			b = fmt.Appendf(b, "%q", d)
		}
		b = append(b, ';')
	}
	return string(b)
}
