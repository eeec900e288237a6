package doorsched

import "strings"

// fieldTable is the one table of fields. It is filled while the package's
// variables are initialised and never written afterwards.
type fieldTable struct {
	rows   []Info
	byName map[string]named
	twice  []string // names claimed by two rows; a test demands none
}

type named struct {
	id    FieldID
	alias Alias
}

var table = &fieldTable{byName: map[string]named{}}

func (t *fieldTable) add(i Info) FieldID {
	i.ID = FieldID(len(t.rows) + 1)
	t.rows = append(t.rows, i)
	for _, a := range append([]Alias{{Name: i.Name, Unit: i.Unit}}, i.Aliases...) {
		if _, taken := t.byName[a.Name]; taken {
			t.twice = append(t.twice, a.Name)
			continue
		}
		t.byName[a.Name] = named{i.ID, a}
	}
	return i.ID
}

// row describes a field in one line. words is "US words|UK words", or one text
// for both. An alias is "name", "name:unit" (unit of its bare numbers) or
// "name>means" (a yes-no column that speaks of one means of a set).
type row struct {
	words   string
	unit    string
	options string // "name=alias=alias, name"
	scope   Scope
	stage   Stage
	help    string
	aliases string // separated by spaces
}

func define[T any](name string, k Kind, r row) Field[T] {
	us, uk, both := strings.Cut(r.words, "|")
	if !both {
		uk = us
	}
	i := Info{Name: name, US: us, UK: uk, Kind: k, Unit: r.unit, Scope: r.scope, Stage: r.stage, Help: r.help}
	if i.Scope == "" {
		i.Scope = ScopeDoor
	}
	if i.Stage == "" {
		i.Stage = StageDesign
	}
	for _, a := range strings.Fields(r.aliases) {
		al := Alias{Name: a}
		if n, unit, ok := strings.Cut(a, ":"); ok {
			al = Alias{Name: n, Unit: unit}
		} else if n, means, ok := strings.Cut(a, ">"); ok {
			m, _ := meansByName(means)
			al = Alias{Name: n, Means: m}
		}
		i.Aliases = append(i.Aliases, al)
	}
	for _, o := range strings.Split(r.options, ",") {
		names := strings.Split(strings.TrimSpace(o), "=")
		if names[0] != "" {
			i.Options = append(i.Options, Option{Name: Choice(names[0]), Aliases: names[1:]})
		}
	}
	return Field[T]{table.add(i)}
}

func text(name string, r row) Field[string]    { return define[string](name, KindText, r) }
func length(name string, r row) Field[Length]  { return define[Length](name, KindLength, r) }
func number(name string, r row) Field[float64] { return define[float64](name, KindNumber, r) }
func count(name string, r row) Field[int64]    { return define[int64](name, KindCount, r) }
func yesNo(name string, r row) Field[Answer]   { return define[Answer](name, KindAnswer, r) }
func choice(name string, r row) Field[Choice]  { return define[Choice](name, KindChoice, r) }
func means(name string, r row) Field[MeansSet] { return define[MeansSet](name, KindMeans, r) }
func rating(name string, r row) Field[Rating]  { return define[Rating](name, KindRating, r) }
