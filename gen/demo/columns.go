package demo

import "example.com/lockrail/doorsched"

// fill-ins that are no field of a door: the owner's own columns.
type special uint8

const (
	noSpecial special = iota
	sketchRef
	takeoffWidth // inches as a number, for the area formula
	takeoffHeight
	area
	costCode
)

// column is one column of the schedule: its group, subgroup and heading and
// the unit its heading carries, American and British. A column is left out of
// the edition that has no heading for it or no door with a value.
type column struct {
	field   doorsched.FieldID
	special special
	group   [2]string
	sub     [2]string
	head    [2]string
	unit    [2]string
	width   float64
	hidden  bool
}

// group makes the columns of one merged group heading.
func group(us, uk string, cs ...column) []column {
	for i := range cs {
		cs[i].group = [2]string{us, uk}
	}
	return cs
}

func col(f interface{ ID() doorsched.FieldID }, width float64, us, uk string) column {
	return column{field: f.ID(), width: width, head: [2]string{us, uk}}
}

// in puts the unit into the heading, where it is bracketed, or into the cell.
func (c column) in(us, uk string) column {
	c.unit = [2]string{us, uk}
	for i, u := range c.unit {
		if u != "" && u != "in" && c.head[i] != "" {
			c.head[i] += " (" + u + ")"
		}
	}
	return c
}

func (c column) under(us, uk string) column {
	c.sub = [2]string{us, uk}
	return c
}

func own(s special, width float64, us, uk string) column {
	return column{special: s, width: width, head: [2]string{us, uk}}
}

func (c column) hide() column {
	c.hidden = true
	return c
}

// columns lists the columns in the order of the sheet. Headings are those of
// the trade and of the field table, but for the owner's own.
func columns() []column {
	var out []column
	for _, g := range [][]column{
		group("Opening", "Opening",
			col(doorsched.Mark, 8, "Door No.", "Door Ref"),
			col(doorsched.RoomFrom, 15, "From Room", "From Room"),
			col(doorsched.RoomTo, 15, "To Room", "To Room"),
			col(doorsched.DoorUse, 14, "Door use", "Door use"),
			col(doorsched.OpeningKind, 11, "Kind of opening", "Kind of opening"),
			col(doorsched.Phase, 11, "Status of work", "Status of work"),
			own(sketchRef, 9, "Sketch ref", "Sketch ref"),
		),
		group("Door", "Doorset",
			col(doorsched.Leaves, 7, "Leaves", "Leaves"),
			col(doorsched.Width, 8, "Width", "").under("Size", "Size"),
			col(doorsched.LeafWidth, 8, "", "Leaf Width").in("", "mm").under("Size", "Size"),
			col(doorsched.Height, 8, "Height", "Height").in("", "mm").under("Size", "Size"),
			col(doorsched.Thickness, 8, "Thickness", "Thickness").in("in", "mm").under("Size", "Size"),
			own(takeoffWidth, 7, "Calc W", "").hide(),
			own(takeoffHeight, 7, "Calc H", "").hide(),
			own(area, 8, "Area ft²", "Area m²"),
			col(doorsched.DoorType, 6, "Type", "Type"),
			col(doorsched.DoorMaterial, 10, "Material", "Material"),
			col(doorsched.DoorFinish, 11, "Finish", "Finish"),
			col(doorsched.Glazing, 8, "Glazing", "Vision Panel Type"),
			col(doorsched.Louver, 9, "Louver", "Louvre"),
			col(doorsched.Handing, 7, "Hand", "Handing"),
			col(doorsched.LeafMass, 8, "", "Leaf mass").in("", "kg"),
		),
		group("Frame", "Frame",
			col(doorsched.FrameType, 6, "Type", "Type"),
			col(doorsched.FrameMaterial, 10, "Material", "Material"),
			col(doorsched.FrameFinish, 11, "Finish", "Finish"),
		),
		group("Fire", "Fire",
			col(doorsched.FireRating, 9, "Fire Rating", "Fire Rating (FD)"),
			col(doorsched.Smoke, 8, "Smoke door", "Smoke door"),
			col(doorsched.SmokeTested, 9, "Smoke leakage tested", "Smoke leakage tested"),
			col(doorsched.WallType, 12, "Wall type", ""),
			col(doorsched.WallHours, 8, "Wall rating", ""),
			col(doorsched.FireTestEvidence, 11, "", "Fire evidence for electric items"),
			col(doorsched.EvidenceNoLatch, 11, "", "Fire evidence without latch"),
			col(doorsched.StairEnclosure, 11, "", "In a protected stair enclosure"),
			col(doorsched.DropSeal, 8, "", "Drop seal"),
		),
		group("Hardware", "Ironmongery",
			col(doorsched.HardwareSet, 7, "HW Set", "Ironmongery Set"),
			col(doorsched.Closer, 10, "Closer", "Closer"),
			col(doorsched.SelfClosing, 8, "Self Closing", "Self Closing"),
			col(doorsched.CloserSize, 8, "", "Closer power size"),
			col(doorsched.CloserMaxSize, 8, "", "Closer largest size"),
			col(doorsched.HingeGrade, 7, "", "Hinge grade"),
			col(doorsched.HingeCount, 8, "", "Hinges per leaf"),
			col(doorsched.Latch, 9, "Latches when closed", "Latches when closed"),
			col(doorsched.LatchType, 11, "Latch type", "Latch type"),
			col(doorsched.HoldOpen, 10, "Hold Open", "Hold Open"),
			col(doorsched.HoldOpenRelease, 17, "Hold-open releases on", "Hold-open releases on"),
			col(doorsched.ManualRelease, 9, "", "Manual release"),
			col(doorsched.InactiveBolt, 12, "Inactive leaf bolts", "Inactive leaf bolts"),
			col(doorsched.InactiveHardware, 11, "Inactive leaf hardware", "Inactive leaf hardware"),
			col(doorsched.Rebated, 11, "Overlapping astragal", "Rebated meeting stiles"),
			col(doorsched.Coordinator, 11, "", "Coordinator"),
		),
		group("Access control", "Access control",
			col(doorsched.AccessControlled, 9, "Access Control", "Access Control"),
			col(doorsched.Reader, 8, "Reader", "Reader"),
			col(doorsched.Lock, 16, "Lock", "Lock"),
			col(doorsched.Fail, 11, "Without power", "Fail state"),
			col(doorsched.Listed, 9, "Listing", ""),
			col(doorsched.HoldingForce, 9, "", "Holding force").in("", "N"),
			col(doorsched.SoleFastening, 10, "", "Only fastening"),
			col(doorsched.LatchFreed, 10, "Latch freed without power", "Latch freed without power"),
			col(doorsched.DoorContact, 9, "Door position switch", "Door contact"),
			col(doorsched.AccessGrade, 8, "", "Access grade"),
			col(doorsched.LockVolts, 8, "Lock voltage", "Lock voltage").in("V", "V"),
			col(doorsched.LockAmps, 8, "Lock current", "Lock current").in("A", "A"),
			col(doorsched.LockInrush, 8, "Lock inrush", "Lock inrush").in("A", "A"),
			col(doorsched.CableLength, 8, "Cable length", "Cable length").in("ft", "m"),
			col(doorsched.CableSize, 10, "Conductor size", "Conductor size"),
			col(doorsched.Closet, 10, "Closet", "Comms cupboard"),
			col(doorsched.ControllerPlace, 10, "Controller place", "Controller place"),
		),
		group("Release", "Release",
			col(doorsched.ReleaseSet, 22, "Released by", "Released by"),
			col(doorsched.ReleaseMode, 12, "Release arrangement", ""),
			col(doorsched.ExitSensor, 8, "Exit sensor", ""),
			col(doorsched.HardwareDirect, 11, "Hardware switch cuts lock power", ""),
			col(doorsched.ButtonHeight, 9, "Exit button height", "").in("in", ""),
			col(doorsched.ButtonDistance, 9, "Exit button distance", ""),
			col(doorsched.ButtonUnlock, 9, "Exit button unlock time", "").in("s", ""),
			col(doorsched.ButtonDirect, 10, "Exit button cuts lock power", ""),
			col(doorsched.ButtonSign, 9, "Exit button sign", ""),
			col(doorsched.Override, 11, "", "Emergency door release"),
			col(doorsched.OverrideType, 10, "", "Emergency release type"),
			col(doorsched.OverrideLatching, 10, "", "Emergency release stays released"),
			col(doorsched.OverridePoles, 10, "", "Emergency release poles"),
			col(doorsched.OverrideSides, 10, "", "Emergency release sides"),
			col(doorsched.OverrideSide, 11, "", "Emergency release side"),
			col(doorsched.OverrideColour, 10, "", "Emergency release colour"),
			col(doorsched.OverrideHeight, 10, "", "Emergency release height").in("", "mm"),
			col(doorsched.OverrideDistance, 10, "", "Emergency release distance").in("", "m"),
			col(doorsched.ActuationCategory, 10, "", "Actuation category"),
			col(doorsched.LockPSUBattery, 9, "", "Lock supply on battery"),
			col(doorsched.OverrideCutsSupply, 10, "", "Release cuts lock supply"),
			col(doorsched.En13637System, 9, "", "Tested exit system"),
		),
		group("Egress", "Escape",
			col(doorsched.Egress, 10, "Egress door", "On an escape route"),
			col(doorsched.Occupancy, 10, "Occupancy group", ""),
			col(doorsched.OccupantLoad, 9, "Occupant load", "Persons"),
			col(doorsched.Swing, 9, "Swing", "Opening direction"),
			col(doorsched.EgressHardware, 10, "Egress hardware", "Escape hardware"),
			col(doorsched.HardwareHeight, 9, "Hardware height", "Hardware height").in("in", "mm"),
			col(doorsched.BarWidth, 9, "Bar actuating length", "").in("in", ""),
			col(doorsched.Motions, 8, "Motions to leave", "Mechanisms to leave"),
			col(doorsched.KeyEgress, 8, "Key needed to leave", "Key needed to leave"),
			col(doorsched.SpecialKnowledge, 10, "Special knowledge needed to leave", ""),
			col(doorsched.MechanicalEgress, 10, "Free mechanical egress", "Mechanical escape"),
			col(doorsched.DeadBolt, 8, "Dead bolt", "Deadlock"),
			col(doorsched.ClearWidth, 8, "Clear opening width", "Clear opening width").in("in", "mm"),
			col(doorsched.ClearHeight, 8, "Clear opening height", "Clear opening height").in("in", "mm"),
			col(doorsched.Operation, 12, "Operation", "Operation"),
			col(doorsched.Exterior, 8, "Exterior", "External"),
			col(doorsched.Exposure, 9, "Exposure", "Exposure"),
			col(doorsched.Accessible, 10, "On an accessible route", "Accessible door"),
			col(doorsched.MainExterior, 9, "Main exterior door", "Main entrance"),
			col(doorsched.FinalExit, 8, "", "Final exit"),
			col(doorsched.PublicEntrance, 9, "Public entrance", "Public entrance"),
			col(doorsched.Approach, 9, "", "Approach"),
			col(doorsched.Fastened, 9, "", "Fastened"),
			col(doorsched.PublicUse, 8, "", "Public use"),
			col(doorsched.PublicAccess, 9, "", "Open to the public"),
			col(doorsched.TrainedUsers, 8, "", "Trained users"),
			col(doorsched.EscapeBothWays, 9, "", "Escape both ways"),
			col(doorsched.EscapeStair, 9, "", "Escape stair door"),
			col(doorsched.StairSideLocked, 9, "Locked from the stair", ""),
			col(doorsched.Delay, 7, "Delay", "Delay").in("s", "s"),
			col(doorsched.LatchBlocker, 9, "Latch or closer blocked", "Latch or closer blocked"),
			col(doorsched.LockUsedWhenEmpty, 9, "", "Locked only when empty"),
		),
		group("Electrical room", "Electrical room",
			col(doorsched.EquipmentAmps, 10, "Largest equipment rating", "").in("A", ""),
			col(doorsched.WorkingSpace, 10, "Distance to working space", ""),
			col(doorsched.Overcurrent, 12, "Switching or overcurrent devices", ""),
		),
		group("Building", "Building",
			col(doorsched.Sprinkler, 10, "Sprinklers", "Sprinklers"),
			col(doorsched.Detection, 9, "Fire detection", "Fire detection"),
			col(doorsched.FireAlarm, 9, "Fire alarm system", "Fire alarm system"),
			col(doorsched.Premises, 13, "", "Kind of premises"),
			col(doorsched.BuildingAge, 9, "", "New or existing building"),
			col(doorsched.StaffLed, 10, "", "Staff-led evacuation"),
		),
		group("Office use", "Office use",
			own(costCode, 9, "Cost code", "Cost code").hide(),
			col(doorsched.Remarks, 24, "Remarks", "Remarks"),
		),
	} {
		out = append(out, g...)
	}
	return out
}

// writtenFields are the fields that a region has a heading for.
func writtenFields(r doorsched.Region) map[doorsched.FieldID]bool {
	out := map[doorsched.FieldID]bool{}
	for _, c := range columns() {
		if c.special == noSpecial && c.head[regionIndex(r)] != "" {
			out[c.field] = true
		}
	}
	return out
}

// regionIndex is where a region's words stand in a pair.
func regionIndex(r doorsched.Region) int {
	if r == doorsched.RegionUK {
		return 1
	}
	return 0
}
