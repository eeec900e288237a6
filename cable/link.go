package cable

// Link is a kind of data run to a door.
type Link string

const (
	EthernetChannel Link = "Ethernet channel"
	RS485           Link = "RS-485"
	OSDP            Link = "OSDP"
	Wiegand         Link = "Wiegand"
	Supervised      Link = "supervised contact"
)

// LinkLimit is the longest run of a data link; signalling sets it, not voltage drop.
type LinkLimit struct {
	Link    Link
	Longest Metres
	Note    string
	Source  Source
}

var linkLimits = [...]LinkLimit{
	{EthernetChannel, 100, "90 m of fixed cable and up to 10 m of cords", Source{"TIA-568, ISO/IEC 11801", Memory}},
	{RS485, 1200, "at low data rates; terminated at both ends with 120 ohm", Source{"TIA/EIA-485 guidance", Verified}},
	{OSDP, 1200, "over RS-485; termination usual above 60 m", Source{"SIA OSDP, IEC 60839-11-5", Memory}},
	{Wiegand, 150, "with 18 AWG; 75 m with 22 AWG and 60 m are usual planning figures", Source{"SIA AC-01 and trade", Practice}},
	{Supervised, 600, "limited by loop resistance, 22 AWG", Source{"trade", Practice}},
}

// LinkLimits lists the limits of data runs.
func LinkLimits() []LinkLimit { return append([]LinkLimit(nil), linkLimits[:]...) }

// Limit is the limit of a link, and whether there is one.
func (l Link) Limit() (LinkLimit, bool) {
	for _, limit := range linkLimits {
		if limit.Link == l {
			return limit, true
		}
	}
	return LinkLimit{}, false
}
