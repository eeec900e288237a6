package hardware

import (
	"slices"

	"example.com/lockrail/doorsched"
)

// ItemKind is one row of the table of kinds: what the trade of each region calls
// an item and the standard it is ordered to.
type ItemKind struct {
	ID             string
	US, UK         string           // name
	StdUS, StdUK   string           // empty: none specific
	Status         doorsched.Status // of the name and standards
	sectUS, sectUK Section
}

// Name returns the kind's name in a region's words.
func (k ItemKind) Name(r doorsched.Region) string {
	if r == doorsched.RegionUK {
		return k.UK
	}
	return k.US
}

// Standard returns the standard the kind is ordered to in a region.
func (k ItemKind) Standard(r doorsched.Region) string {
	if r == doorsched.RegionUK {
		return k.StdUK
	}
	return k.StdUS
}

// Section returns the heading a region lists the kind under.
func (k ItemKind) Section(r doorsched.Region) Section {
	if r == doorsched.RegionUK {
		return k.sectUK
	}
	return k.sectUS
}

// Kinds of item.
const (
	hngButt    = "HNG-BUTT"
	hngPivot   = "HNG-PVT"
	hngSpring  = "HNG-SPR"
	hngPower   = "HNG-PT"
	transfer   = "EPT"
	doorCord   = "LOOP"
	boltManual = "FB-MAN"
	boltAuto   = "FB-AUTO"
	dustProof  = "DPS-STK"
	lckMortise = "LCK-MORT"
	lckBored   = "LCK-BORED"
	lckElec    = "LCK-ELEC"
	exdRim     = "EXD-RIM"
	exdRods    = "EXD-VR"
	exdMortise = "EXD-MORT"
	exdElec    = "EXD-ELEC"
	delayed    = "DEG"
	controlled = "CEG"
	magnet     = "EML"
	eStrike    = "ESTK"
	powerBolt  = "PBOLT"
	strikeItem = "STRIKE"
	cylinder   = "CYL"
	mullion    = "MULL"
	pushPull   = "PUSHPULL"
	leverTrim  = "LEVER"
	coordItem  = "COORD"
	closerItem = "CLS"
	operator   = "OPER"
	actuator   = "ACT"
	holder     = "HO-EM"
	kickPlate  = "PLT-KICK"
	doorStop   = "STP-WALL"
	threshold  = "THR"
	gasket     = "GSK"
	bottomSeal = "SWEEP"
	astragal   = "ASTR"
	silencer   = "SIL"
	contact    = "DPSW"
	rexSensor  = "REX-SENSOR"
	rexSwitch  = "REX-SWITCH"
	exitButton = "EXIT-BTN"
	doorUnit   = "EDR"
	reader     = "RDR"
)

// kinds stand in the order in which a US set lists them inside each section; the
// order inside a section is common practice, of the sections see SectionOrder.
// Status is that of the published copies seen for name and standard; rows
// split from one row of the published list (STRIKE, ACT, the request-to-exit
// devices) keep its status.
var kinds = []ItemKind{
	{hngButt, "butt hinge", "butt hinge", "ANSI/BHMA A156.1", "EN 1935", doorsched.Verified, SectionHang, SectionHang},
	{hngSpring, "spring hinge", "spring hinge", "ANSI/BHMA A156.17", "", doorsched.Verified, SectionHang, SectionHang},
	{hngPivot, "pivot set", "pivot set", "ANSI/BHMA A156.4", "EN 1154", doorsched.Memory, SectionHang, SectionHang},
	{hngPower, "electric (power transfer) hinge", "electric hinge", "ANSI/BHMA A156.1", "EN 1935", doorsched.Practice, SectionHang, SectionHang},
	{transfer, "electric power transfer", "concealed cable transfer", "", "", doorsched.Practice, SectionHang, SectionHang},
	{doorCord, "armored door cord", "door loop", "", "", doorsched.Practice, SectionHang, SectionHang},

	{boltManual, "manual flush bolt", "flush bolt (lever action)", "ANSI/BHMA A156.3", "EN 12051", doorsched.Verified, SectionSecure, SectionSecure},
	{boltAuto, "automatic flush bolt", "automatic flush bolt", "ANSI/BHMA A156.3", "EN 12051", doorsched.Memory, SectionSecure, SectionSecure},
	{dustProof, "dust-proof strike", "easy-clean floor socket", "ANSI/BHMA A156.16", "", doorsched.Memory, SectionSecure, SectionSecure},
	{lckMortise, "mortise lockset", "mortice lock case", "ANSI/BHMA A156.13", "EN 12209", doorsched.Verified, SectionSecure, SectionSecure},
	{lckBored, "bored (cylindrical) lockset", "tubular latch", "ANSI/BHMA A156.2", "EN 12209", doorsched.Verified, SectionSecure, SectionSecure},
	{lckElec, "electrified lock", "electric lock case", "ANSI/BHMA A156.25", "EN 14846", doorsched.Verified, SectionSecure, SectionSecure},
	{exdRim, "rim exit device", "panic latch", "ANSI/BHMA A156.3", "EN 1125", doorsched.Verified, SectionSecure, SectionSecure},
	{exdRods, "vertical rod exit device", "double panic bolt", "ANSI/BHMA A156.3", "EN 1125", doorsched.Memory, SectionSecure, SectionSecure},
	{exdMortise, "mortise exit device", "exit device operating a mortice lock", "ANSI/BHMA A156.3", "EN 1125", doorsched.Memory, SectionSecure, SectionSecure},
	{exdElec, "exit device with electric latch retraction", "electrically operated panic exit device", "ANSI/BHMA A156.25; A156.3", "EN 13637", doorsched.Verified, SectionSecure, SectionSecure},
	{delayed, "delayed egress locking system", "delayed exit system", "ANSI/BHMA A156.24", "EN 13637", doorsched.Verified, SectionSecure, SectionSecure},
	{controlled, "controlled egress locking system", "controlled exit system", "", "EN 13637", doorsched.Memory, SectionSecure, SectionSecure},
	{eStrike, "electric strike", "electric release", "ANSI/BHMA A156.31", "EN 14846", doorsched.Verified, SectionSecure, SectionSecure},
	{magnet, "electromagnetic lock", "magnetic lock", "ANSI/BHMA A156.23", "DHF TS 010", doorsched.Verified, SectionSecure, SectionSecure},
	{powerBolt, "electrified bolt", "electric bolt", "", "EN 14846", doorsched.Memory, SectionSecure, SectionSecure},
	{strikeItem, "strike", "striking plate", "ANSI/BHMA A156.115", "EN 12209", doorsched.Practice, SectionSecure, SectionSecure},
	{cylinder, "cylinder", "euro profile cylinder", "ANSI/BHMA A156.5", "EN 1303", doorsched.Verified, SectionSecure, SectionSecure},
	{mullion, "removable mullion", "removable mullion", "ANSI/BHMA A156.3", "", doorsched.Verified, SectionSecure, SectionSecure},
	{pushPull, "push plate and pull", "finger plate and pull handle", "ANSI/BHMA A156.6", "BS 8424", doorsched.Verified, SectionSecure, SectionOperate},
	{leverTrim, "lever trim", "lever handles on rose", "ANSI/BHMA A156.13", "EN 1906", doorsched.Verified, SectionSecure, SectionOperate},

	{coordItem, "coordinator", "door coordinator", "ANSI/BHMA A156.3", "EN 1158", doorsched.Verified, SectionControl, SectionClose},
	{closerItem, "closer", "door closer", "ANSI/BHMA A156.4", "EN 1154", doorsched.Verified, SectionControl, SectionClose},
	{operator, "automatic operator", "automatic swing door operator", "ANSI/BHMA A156.19", "EN 16005", doorsched.Verified, SectionControl, SectionClose},
	{actuator, "door actuator", "activation switch", "ANSI/BHMA A156.19", "EN 16005", doorsched.Practice, SectionControl, SectionClose},
	{holder, "electromagnetic door holder", "hold-open magnet", "ANSI/BHMA A156.15", "EN 1155", doorsched.Verified, SectionControl, SectionClose},

	{kickPlate, "kick plate", "kicking plate", "ANSI/BHMA A156.6", "", doorsched.Verified, SectionProtect, SectionProtect},
	{doorStop, "wall or floor stop", "door stop", "ANSI/BHMA A156.16", "", doorsched.Verified, SectionProtect, SectionProtect},
	{gasket, "perimeter gasketing", "perimeter seals", "ANSI/BHMA A156.22", "EN 12365", doorsched.Memory, SectionProtect, SectionProtect},
	{threshold, "threshold", "threshold", "ANSI/BHMA A156.21", "", doorsched.Verified, SectionProtect, SectionProtect},
	{bottomSeal, "door bottom", "drop seal", "ANSI/BHMA A156.22", "", doorsched.Memory, SectionProtect, SectionProtect},
	{astragal, "astragal", "meeting stile seal", "ANSI/BHMA A156.22", "", doorsched.Practice, SectionProtect, SectionProtect},
	{silencer, "rubber silencer", "buffer", "ANSI/BHMA A156.16", "", doorsched.Practice, SectionProtect, SectionProtect},

	{reader, "card reader", "reader", "UL 294", "EN 60839-11-1", doorsched.Practice, SectionElectronic, SectionElectronic},
	{rexSensor, "request-to-exit sensor", "exit sensor", "UL 294", "", doorsched.Practice, SectionElectronic, SectionElectronic},
	{rexSwitch, "request-to-exit switch in the hardware", "exit switch in the hardware", "UL 294", "", doorsched.Practice, SectionElectronic, SectionElectronic},
	{exitButton, "push-to-exit button", "exit button", "UL 294", "", doorsched.Practice, SectionElectronic, SectionElectronic},
	{doorUnit, "emergency door release unit", "emergency door release unit", "", "BS 7273-4", doorsched.Verified, SectionElectronic, SectionElectronic},
	{contact, "door position switch", "door contact", "UL 634", "EN 50131-2-6", doorsched.Practice, SectionElectronic, SectionElectronic},
}

// Kinds returns the table of kinds.
func Kinds() []ItemKind { return slices.Clone(kinds) }

func kindIndex(id string) int {
	return slices.IndexFunc(kinds, func(k ItemKind) bool { return k.ID == id })
}

// sectionOrders is the order of a set: hang, secure, control, protect, electronic
// in the US (a trade blog quoting the institute's sequence; two summaries
// differ), hang, close, secure, operate, protect in the UK (the institute's
// suggestion), each with the electronic items at the foot (common practice).
var sectionOrders = map[doorsched.Region][]Section{
	doorsched.RegionUS: {SectionHang, SectionSecure, SectionControl, SectionProtect, SectionElectronic},
	doorsched.RegionUK: {SectionHang, SectionClose, SectionSecure, SectionOperate, SectionProtect, SectionElectronic},
}

// SectionOrder returns the headings of a region's sets in order.
func SectionOrder(r doorsched.Region) []Section { return slices.Clone(sectionOrders[r]) }
