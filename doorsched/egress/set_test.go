package egress

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/lockrail/doorsched"
	"pgregory.net/rapid"
)

func TestRuleSet(t *testing.T) {
	rows := map[string]bool{}
	for _, name := range []string{"us_rules.csv", "uk_rules.csv"} {
		for _, r := range readCSV(t, name) {
			rows[r["id"]] = true
		}
	}
	if !slices.IsSortedFunc(allRules, func(a, b *Rule) int { return strings.Compare(a.Slug, b.Slug) }) {
		t.Error("rules are not sorted by slug")
	}
	seen := map[string]bool{}
	for _, r := range Rules() {
		if seen[r.Slug] {
			t.Errorf("slug %s stands twice", r.Slug)
		}
		seen[r.Slug] = true
		if r.Slug == "" || r.Title == "" || r.Protects == "" || r.Stage == "" || r.Severity == 0 || len(r.Fields) == 0 || len(r.Refs) == 0 ||
			len(r.Cite) == 0 || r.Judge == nil || r.Say == nil {
			t.Errorf("%s is incomplete", r.Slug)
		}
		for _, ref := range r.Refs {
			if !rows[ref] {
				t.Errorf("%s: no row %q in testdata/egress", r.Slug, ref)
			}
		}
		for e, c := range r.Cite {
			if _, ok := e.Info(); !ok || c.Document == "" || c.Status == "" {
				t.Errorf("%s: citation %v on %q", r.Slug, c, e)
			}
		}
		if got, ok := RuleByName(r.Slug); !ok || got != r {
			t.Errorf("RuleByName(%q) = %v, %v", r.Slug, got, ok)
		}
		for e, cases := range states[r.Slug] {
			for _, c := range cases {
				for _, f := range r.Judge(Case{door(t, c.inputs), e}).Faults {
					for _, ref := range f.Refs {
						if !slices.Contains(r.Refs, ref) {
							t.Errorf("%s: %s claims row %q, which the rule does not list", r.Slug, f.Item, ref)
						}
					}
				}
			}
		}
	}
	if _, ok := RuleByName("no-such-rule"); ok {
		t.Error("found a rule that is not there")
	}
}

// choices of values around every limit the rules have.
var (
	someLengths = []doorsched.Length{0, 3 * doorsched.Millimetre, 4 * doorsched.Millimetre, doorsched.Inch / 8, 3 * doorsched.Inch / 16, doorsched.Inch / 2, doorsched.Inch,
		6 * doorsched.Inch, 12 * doorsched.Inch, 18 * doorsched.Inch, 26 * doorsched.Inch, 30 * doorsched.Inch, 31 * doorsched.Inch, 32 * doorsched.Inch, 34 * doorsched.Inch,
		36 * doorsched.Inch, 39 * doorsched.Inch, 42 * doorsched.Inch, 44 * doorsched.Inch, 47 * doorsched.Inch, 50 * doorsched.Inch, 60 * doorsched.Inch, 72 * doorsched.Inch,
		750 * doorsched.Millimetre, 800 * doorsched.Millimetre, 1070 * doorsched.Millimetre, 1300 * doorsched.Millimetre, 1700 * doorsched.Millimetre, 2 * doorsched.Metre, 20 * doorsched.Foot, 30 * doorsched.Foot}
	someCounts  = []int64{0, 1, 2, 3, 10, 11, 49, 50, 60, 61, 110, 111, 220, 221, 300, 301, 1000}
	someNumbers = []float64{0, 0.5, 1, 1.5, 2, 3, 4, 15, 16, 22, 23, 29, 30, 31, 67, 134, 799, 800}
	someRatings = []string{"NR", "20", "45", "60", "90", "180", "FD30", "FD30S", "E30 Sa"}
)

func drawValue(t *rapid.T, id doorsched.FieldID) any {
	i, _ := doorsched.FieldInfo(id)
	label := i.Name
	switch i.Kind {
	case doorsched.KindText:
		return rapid.SampledFrom([]string{"A1", "STL"}).Draw(t, label)
	case doorsched.KindLength:
		return rapid.SampledFrom(someLengths).Draw(t, label)
	case doorsched.KindNumber:
		return rapid.SampledFrom(someNumbers).Draw(t, label)
	case doorsched.KindCount:
		return rapid.SampledFrom(someCounts).Draw(t, label)
	case doorsched.KindAnswer:
		return rapid.SampledFrom([]doorsched.Answer{doorsched.Yes, doorsched.No}).Draw(t, label)
	case doorsched.KindChoice:
		return rapid.SampledFrom(i.Options).Draw(t, label).Name
	case doorsched.KindMeans:
		s := doorsched.ExactlyMeans(doorsched.Means(rapid.Uint16Range(0, 1<<13-1).Draw(t, label)))
		if rapid.Bool().Draw(t, label+" partly") {
			m := doorsched.Means(1) << rapid.IntRange(0, 12).Draw(t, label+" bit")
			s = doorsched.OneMeans(m, s.Yes()&m != 0)
		}
		return s
	case doorsched.KindRating:
		r, err := doorsched.ParseRating(rapid.SampledFrom(someRatings).Draw(t, label))
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	t.Fatalf("no values for %s", i.Name)
	return nil
}

func put(r *doorsched.Record, id doorsched.FieldID, v any) {
	r.Delete(id)
	r.Put(doorsched.Value{Field: id, Data: v, Origin: doorsched.Given})
}

// drawDoor draws a door that gives some of the fields.
func drawDoor(t *rapid.T, ids []doorsched.FieldID) *doorsched.Record {
	var r doorsched.Record
	for _, id := range ids {
		if rapid.IntRange(0, 3).Draw(t, "give") > 0 {
			put(&r, id, drawValue(t, id))
		}
	}
	return &r
}

func of[T any](r *doorsched.Record, f doorsched.Field[T]) T {
	v, _ := f.Of(r).Get()
	return v
}

// settle takes out of a door what contradicts itself: a schedule that says two
// things of one matter may be judged either way once one of them is left out.
func settle(r *doorsched.Record) {
	del := func(when bool, id doorsched.FieldID) {
		if when {
			r.Delete(id)
		}
	}
	set := of(r, doorsched.ReleaseSet)
	magnet := of(r, doorsched.Lock) == "electromagnetic"
	c := Case{View: doorsched.NewView("101", r)}
	evidence, _ := c.egressEvidence()
	del(evidence != doorsched.NoField && of(r, doorsched.Egress) == "none", doorsched.Egress.ID())

	closer, closes := of(r, doorsched.Closer), of(r, doorsched.SelfClosing)
	del(closer != "" && closes != doorsched.Unknown && (closer == "none") == (closes == doorsched.Yes), doorsched.SelfClosing.ID())

	del(of(r, doorsched.Fail) == "secure" && (magnet || set.Has(doorsched.ByPowerLoss) == doorsched.Yes), doorsched.Fail.ID())

	sensor, hardware := set.Has(doorsched.BySensor), set.Has(doorsched.ByHardwareSwitch)
	mode, kind := of(r, doorsched.ReleaseMode), of(r, doorsched.ExitSensor)
	del(mode == "sensor" && (sensor == doorsched.No || hardware == doorsched.Yes), doorsched.ReleaseMode.ID())
	del(mode == "hardware_switch" && (hardware == doorsched.No || sensor == doorsched.Yes), doorsched.ReleaseMode.ID())
	mode = of(r, doorsched.ReleaseMode)
	del(kind == "none" && (sensor == doorsched.Yes || mode == "sensor"), doorsched.ExitSensor.ID())
	del(kind != "" && kind != "none" && (sensor == doorsched.No || mode == "hardware_switch"), doorsched.ExitSensor.ID())

	override, unit := of(r, doorsched.Override), set.Has(doorsched.ByEmergencyRelease)
	del(override != "" && unit != doorsched.Unknown && (override == "none") == (unit == doorsched.Yes), doorsched.Override.ID())
	del(override == "green" && of(r, doorsched.OverrideColour) != "green", doorsched.OverrideColour.ID())
	sides, known := doorsched.OverrideSides.Of(r).Get()
	del(known && sides < 2 && of(r, doorsched.OverrideSide) == "both", doorsched.OverrideSide.ID())
	del(of(r, doorsched.RemoteRelease) == "none" && set.Has(doorsched.ByRemote) == doorsched.Yes, doorsched.RemoteRelease.ID())

	rating, rated := doorsched.FireRating.Of(r).Get()
	del(rated && rating.Smoke != doorsched.Unknown && of(r, doorsched.Smoke) != rating.Smoke, doorsched.Smoke.ID())
	in, out := of(r, doorsched.Interior), of(r, doorsched.Exterior)
	del(in != doorsched.Unknown && in == out, doorsched.Interior.ID())

	// A schedule that gives leaf widths and a width besides must have them agree.
	_, both := doorsched.Width.Of(r).Get()
	del(both, doorsched.LeafWidth.ID())
	del(both, doorsched.InactiveWidth.ID())
	// A clear width is less than the leaf, and both leaves are leaves of the pair.
	leaf, _, _ := c.widestLeaf()
	del(leaf == 0 || of(r, doorsched.ClearWidth) > leaf, doorsched.ClearWidth.ID())
}

// TestFieldsAreComplete: a field that a rule does not list changes nothing.
func TestFieldsAreComplete(t *testing.T) {
	var all []doorsched.FieldID
	for _, r := range allRules {
		all = join(all, r.Fields)
	}
	rapid.Check(t, func(t *rapid.T) {
		base := drawDoor(t, all)
		for _, r := range allRules {
			for e := range r.Cite {
				before := describe(r, base, e)
				id := rapid.SampledFrom(all).Draw(t, "field")
				if slices.Contains(r.Fields, id) {
					continue
				}
				more := base.Clone()
				put(&more, id, drawValue(t, id))
				if after := describe(r, &more, e); before != after {
					t.Fatalf("%s on %s reads %s and does not list it:\n%s\n%s", r.Slug, e, id, before, after)
				}
			}
		}
	})
}

func describe(r *Rule, rec *doorsched.Record, e doorsched.Edition) string {
	c := Case{doorsched.NewView("101", rec), e}
	j := r.Judge(c)
	s := summary(j) + fmt.Sprint(j.Site, j.Assumed)
	for _, f := range j.Faults {
		s += fmt.Sprint(f.Fields, f.Value, f.Limit, f.Severity, r.Say(c, f))
	}
	return s
}

// TestUnknownNeverAccuses: the less a schedule says, the less is settled. What
// is settled without assumption stays settled when more is said, and a rule that
// is not broken does not break because a value was taken away.
func TestUnknownNeverAccuses(t *testing.T) {
	for _, r := range allRules {
		for e := range r.Cite {
			t.Run(r.Slug+" "+string(e), func(t *testing.T) {
				rapid.Check(t, func(t *rapid.T) {
					full := drawDoor(t, r.Fields)
					settle(full)
					if len(full.All()) == 0 {
						return
					}
					part := full.Clone()
					part.Delete(rapid.SampledFrom(full.All()).Draw(t, "taken away").Field)
					settle(&part)
					more := r.Judge(Case{doorsched.NewView("101", full), e})
					less := r.Judge(Case{doorsched.NewView("101", &part), e})
					if len(less.Assumed) > 0 || less.State == NotJudged {
						return
					}
					if (less.State == Broken) != (more.State == Broken) || more.State == NotJudged {
						t.Fatalf("less said: %s; more said: %s\nless: %v\nmore: %v", summary(less), summary(more), part.All(), full.All())
					}
					// A fault may give way only to one that says more of the matter:
					// no arrangement at all instead of each of its parts.
					graver := slices.ContainsFunc(more.Faults, func(f Fault) bool { return !hasItem(less.Faults, f.Item) })
					for _, f := range less.Faults {
						if item, _, _ := strings.Cut(f.Item, ", "+belowLeaf); !hasItem(more.Faults, item) && !hasItem(more.Faults, f.Item) && !graver {
							t.Fatalf("%s is found only while less is said\nless: %v\nmore: %v", f.Item, part.All(), full.All())
						}
					}
				})
			})
		}
	}
}
