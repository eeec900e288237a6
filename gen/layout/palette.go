package layout

// Shade is a verdict's colour for lines and its tint for fills, as RRGGBB. The
// tint keeps black text at a contrast of at least 7:1.
type Shade struct{ Line, Tint string }

// The Okabe-Ito set, published as safe for colour-blind readers.
var shades = map[string]Shade{
	"conflict":     {"D55E00", "F6D5BF"}, // vermillion
	"approval":     {"CC79A7", "F2DEE9"}, // reddish purple
	"query":        {"E69F00", "F9E7BF"}, // orange
	"caution":      {"56B4E9", "D5ECFA"}, // sky blue
	"no-conflict":  {"009E73", "BFE7DC"}, // bluish green
	"out-of-scope": {"999999", "E5E5E5"}, // grey
}

// ShadeOf returns the colours of a verdict's machine word.
func ShadeOf(code string) Shade { return shades[code] }

// Grey is the fill of our heading rows; Ink their text.
const (
	Grey = "E5E5E5"
	Ink  = "000000"
)

// Input is the fill of cells that the user is asked to write in.
const Input = "FFF8E1"
