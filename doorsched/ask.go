package doorsched

// Question returns the words in which a field is asked about, in a region's
// vocabulary, and the answers to choose from.
func (i Info) Question(r Region) (string, []string) {
	q := i.Words(r) + "?"
	if i.Help != "" {
		q += " " + i.Help
	}
	if i.Unit != "" && (i.Kind == KindNumber || i.Kind == KindLength) {
		q += " (in " + i.Unit + ")"
	}
	return q, i.Choices()
}
