package ooxml

// Limits bounds what [Open] accepts. A zero field stands for its default.
type Limits struct {
	Entries    int   // entries of the package; default 10,000
	EntryBytes int64 // inflated bytes of one entry; default 512 MiB
	TotalBytes int64 // inflated bytes of all entries; default 1 GiB
	Columns    int   // rightmost column a cell may stand in; default all 16,384
}

// DefaultLimits gives the limits that the zero Limits stands for.
func DefaultLimits() Limits {
	return Limits{Entries: 10_000, EntryBytes: 512 << 20, TotalBytes: 1 << 30, Columns: MaxColumn}
}

func (l Limits) withDefaults() Limits {
	d := DefaultLimits()
	if l.Entries > 0 {
		d.Entries = l.Entries
	}
	if l.EntryBytes > 0 {
		d.EntryBytes = l.EntryBytes
	}
	if l.TotalBytes > 0 {
		d.TotalBytes = l.TotalBytes
	}
	if l.Columns > 0 {
		d.Columns = min(l.Columns, MaxColumn)
	}
	// Offsets inside a part are kept in 32 bits.
	d.EntryBytes = min(d.EntryBytes, 1<<31-1)
	return d
}
