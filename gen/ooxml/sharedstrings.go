package ooxml

// readSharedStrings reads the strings of the table in order, rich text joined,
// phonetic readings left out.
func readSharedStrings(part string, b []byte) ([]string, error) {
	l, err := newLexer(part, b)
	if err != nil {
		return nil, err
	}
	if err := l.root(nsMain, "sst"); err != nil {
		return nil, err
	}
	var out []string
	if l.empty {
		return nil, l.drain()
	}
	for {
		ok, err := l.child(1)
		if err != nil {
			return nil, err
		}
		if !ok {
			return out, l.drain()
		}
		if !l.is("si") {
			if err := l.skip(); err != nil {
				return nil, err
			}
			continue
		}
		s, err := readString(l)
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
}

// readString reads <si> or <is>, whose start token is current: <t> directly or in runs <r>.
func readString(l *lexer) (string, error) {
	if l.empty {
		return "", nil
	}
	text, depth := "", l.depth()
	for {
		ok, err := l.child(depth)
		if err != nil || !ok {
			return unescapeHex(text), err
		}
		switch {
		case l.is("r") && !l.empty:
			// its <t> comes as the next child; </r> does not end the string
		case l.is("t"):
			piece, err := l.innerText()
			if err != nil {
				return "", err
			}
			text += piece
		default:
			if err := l.skip(); err != nil {
				return "", err
			}
		}
	}
}
