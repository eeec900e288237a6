package read

import (
	"strings"

	"example.com/lockrail/doorsched"
)

// how says what a column's cells do beyond giving one field its value.
type how uint8

const (
	plain    how = iota
	size         // width, height, leaves and thickness from one text
	yesMeans     // yes stands for one choice of the field, no for another (or none)
	access       // yes or no about access control; any other text is a note
	electric     // as access, but yes speaks of the lock, not of a credential
	unread       // recognised as something that is no field
)

// meaning is what a heading stands for.
type meaning struct {
	field doorsched.FieldID
	how   how
	// text is the field for the whole column's cells where field does not accept
	// them all ("Lock": L1, L2).
	text    doorsched.FieldID
	yes, no doorsched.Choice // what yes and no stand for in a choice; no may be empty: the cell is then kept as a note
	// instead is the field to take where another column has field.
	instead doorsched.FieldID
	unit    string          // of bare numbers, where the name itself says it
	means   doorsched.Means // the name speaks of one means of a set field
	note    string
	// rank settles two columns that claim one field: the lower one has it. Only
	// equals are an error. "Door number" is the mark before "No." is.
	rank int
}

// term is one line of the vocabulary. Names are separated by commas; those
// after a semicolon rank lower, each group after a further semicolon lower
// still.
type term struct {
	meaning
	names string
}

func names(f interface{ ID() doorsched.FieldID }, s string) term {
	return term{meaning{field: f.ID()}, s}
}

func orText(f, text interface{ ID() doorsched.FieldID }, s string) term {
	return term{meaning{field: f.ID(), text: text.ID()}, s}
}

func notRead(note, s string) term { return term{meaning{how: unread, note: note}, s} }

const (
	notLeafSize = "the structural opening is not the leaf; no size is read from it"
	notADoor    = "the frame's size is not the leaf's; no size is read from it"
	rowCount    = "counts rows or doorsets, not leaves; not read"
)

// terms is the vocabulary of headings: the trade's words in the United States,
// the United Kingdom and Australia, with the names that design software and
// handover sheets export. testdata/read/synonyms.csv gives each one's source.
// Headings that turn on their group (Material, Type, Number) stand in
// ambiguous.
var terms = []term{
	names(doorsched.Mark, "Mark, Door Mark, Door number, Door No., Dr. No., Opening No., Opening Number, Opening Mark, Door Ref, Door Reference, Doorset No., Doorset Ref, Doorset Number, Door ID; Door, Opening; Tag, Door Tag, Number, No., ID, Ref, Doorset; Door Name"),
	names(doorsched.AssetTag, "Tag Number, Asset Tag, Asset ID; OwnerProcuredEquipmentNumber"),
	names(doorsched.TypeMark, "Type Mark"),
	names(doorsched.DoorType, "Door type, Doorset Type, Dr Type; Type; Panel Type, Leaf Type, DoorElevationType, Door Elevation, Door Elev.; Elev., Elevation, Door Style"),
	names(doorsched.Level, "Level, Floor, Storey, Story, Floor Level; Zone; Area"),
	term{meaning{field: doorsched.BuildingName.ID()}, "Building, Building Name, Block, Wing"},
	names(doorsched.RoomTo, "Room number, Room No., To Room: Number, To Room, Room To, To Room No.; Room, To; Into; Location, Door Location"),
	names(doorsched.RoomName, "Room name, To Room: Name"),
	names(doorsched.RoomFrom, "From Room: Number, From Room, Room From, From Room No.; From; Adjoining Room; From Room: Name"),
	names(doorsched.Width, "Width, Door Width, Nominal Width, Opening Width, Panel Width; W, Wd, Wdth"),
	names(doorsched.LeafWidth, "Leaf Width, Door leaf width, Leaf W, Active Leaf Width, Active Leaf"),
	names(doorsched.InactiveWidth, "Inactive Leaf Width, Passive Leaf Width, Slave Leaf Width, Inactive Leaf, Passive Leaf"),
	names(doorsched.Height, "Height, Door Height, Door leaf height, Leaf Height, Leaf H, Nominal Height, Opening Height, Panel Height; H, Hgt, Ht"),
	names(doorsched.Thickness, "Thickness, Door leaf thickness, Door Thickness, Leaf Thickness, Leaf Thk; Thk, Thick, T"),
	names(doorsched.ClearWidth, "Clear Opening Width, Clear Width, Clear Opening, Effective Clear Width, ECW"),
	names(doorsched.ClearHeight, "Clear Opening Height, Clear Height"),
	{meaning{field: doorsched.Width.ID(), how: size, rank: 1}, "Size, Door Size, Leaf Size, Nominal Size, W x H, Opening Size, Door Dimensions, Dimensions, Width x Height, W x H x T"},
	notRead(notLeafSize, "Structural Opening, Structural Opening Width, Structural Opening Height, Structural Opening Size, S.O., S.O. Width, S.O. Height, S.O. Size, SO W, SO H, Rough Opening, Rough Opening Width, Rough Opening Height, R.O., R.O. Width, R.O. Height, Structural Width, Structural Height"),
	notRead(notADoor, "Frame Size, Frame Width, Frame Height, Overall Frame Size, Overall Width, Overall Height, Overall Size, Frame Depth, Frame Thickness"),
	notRead(rowCount, "Count, Qty, Quantity"),
	names(doorsched.Leaves, "Leaves, No. of Leaves, Number of Leaves, Leaf Count, Single/Pair, Single/Double, Leaf Config, Leaf Configuration; Config, Configuration"),

	names(doorsched.DoorMaterial, "Door Material, Door Matl, Dr Mat., Leaf Material, Panel Material; Material, Matl; Door leaf construction, Door Construction, Construction; Core, Door Core"),
	names(doorsched.DoorFinish, "Door Finish, Door leaf finish, Finish Door, Leaf Finish, Panel Finish; Finish, Fin."),
	names(doorsched.FrameType, "Frame Type, Fr Type; Frame Elev., Frame Elevation"),
	{meaning{field: doorsched.FrameMat.ID(), text: doorsched.FrameType.ID(), rank: 1}, "Frame, Lining / Frame"},
	names(doorsched.FrameMaterial, "Frame Material, Frame Matl, Fr Mat.; DoorFrame"),
	names(doorsched.FrameFinish, "Frame Finish, Fr Fin., Finish Frame"),
	names(doorsched.HeadDetail, "Head, Head Detail, Head Dtl, FrameDetailHead, HeadNumber"),
	names(doorsched.JambDetail, "Jamb, Jamb Detail, Jamb Dtl, FrameDetailJamb, JambNumber"),
	names(doorsched.SillDetail, "Sill, Sill Detail, Sill Dtl, FrameDetailSill, Threshold Detail"),
	names(doorsched.ThresholdText, "Threshold, Threshold Strip"),
	names(doorsched.FireRating, "Fire Rating, Fire Rated, Fire Rating Label, Fire Rating (FD), FD Rating, Fire Resistance, Fire Performance; Fire Label, UL Label, Label; Rated, Min., Fire Rating Minutes"),
	names(doorsched.LabelClass, "FireLabelClass, Label Class"),
	names(doorsched.Smoke, "Smoke Door, Smoke Control, S Label; Smoke Seal, Smoke Seals, Smoke"),
	names(doorsched.Acoustic, "Acoustic Rating, Sound Proof (STC), STC, STC Rating, Rw, dB Rating; Acoustic, Acoustics"),
	names(doorsched.Glazing, "Glazing Type, Vision panel type, Gl. Type; Glazing; Vision Panel, Vision Lite; Lite, Light, Glazed, Glass"),
	names(doorsched.Louver, "Louver, Louvre; Grille, Door grille/undercut; Under Cut"),
	names(doorsched.Handing, "Hand, Handing, Door Hand; Clockwise/Anti; IfcOperation"),
	{meaning{field: doorsched.Swing.ID(), text: doorsched.Handing.ID()}, "Swing, Door Swing, Opening Direction"},
	names(doorsched.Fanlight, "FanlightOrOverpanel, Fanlight, Transom, Overpanel"),
	names(doorsched.Sidelight, "Sidelight, Sidelite"),
	names(doorsched.Lintel, "Lintel"),
	names(doorsched.SignType, "Sign type, Signage; Sign; Sign text"),
	names(doorsched.Exterior, "IsExternal, Exterior, External, Int./Ext., Ext./Int., Internal/External; Position"),
	names(doorsched.Shielded, "Shielded"),
	names(doorsched.SecurityRating, "SecurityRating, Security Class"),
	names(doorsched.SpecRef, "SpecificationReference, Spec Ref, Spec Section; SpecificationDescription"),
	names(doorsched.Phase, "Phase, Renovation Status, Phase Created, Status, New/Existing"),
	{meaning{field: doorsched.Phase.ID(), how: yesMeans, yes: "existing", no: "new", rank: 1}, "Existing"},
	{meaning{field: doorsched.Phase.ID(), how: yesMeans, yes: "new", no: "existing", rank: 2}, "New"},
	names(doorsched.Remarks, "Remarks; Comments; Comment; Notes; Rem.; Special Req."),

	names(doorsched.HardwareSet, "Hardware Set, Hardware Set No., HW Set, Hdw Set, Hdwr. Set, Hardware Group, Ironmongery Set, I/M Set, Hdw. No., Set No.; Hardware Ref, Hardware Schedule, Ironmongery Ref; Hardware, HDW, HW, Ironmongery, Set"),
	names(doorsched.KeySet, "Key Set, Keying; Key Symbol; Key Suite"),
	orText(doorsched.Lock, doorsched.LockText, "Lock, Lock Type, Electric Lock"),
	names(doorsched.LockText, "Lockset, Lock/latch, Cylinder/Lock, Function, Lock Function; Bolt latch; Roller catch"),
	orText(doorsched.HingeCount, doorsched.HingeText, "Hinges, Butts"),
	names(doorsched.LeverText, "LeverHandle, Lever, Lever Furniture"),
	names(doorsched.PullText, "VerticalPullHandle, Pull handle, Pull"),
	names(doorsched.PushPlateText, "Push plates, Push Plate, Finger Plate"),
	names(doorsched.StopText, "Door stop, Stop"),
	names(doorsched.ProtectionText, "Protection, Protection Plate; Kick, Kick Plate, Kicking Plate; KP"),
	orText(doorsched.Gasketed, doorsched.SealText, "Seals, Door seals; Meeting stile detail"),
	names(doorsched.SpecialText, "Special hardware, Special ironmongery"),
	names(doorsched.Closer, "Closer, DoorCloser"),
	names(doorsched.SelfClosing, "Self Closing, Self Closer"),
	names(doorsched.HoldOpen, "Hold Open, Hold-open Device"),
	{meaning{field: doorsched.HoldOpen.ID(), how: yesMeans, yes: "magnetic", no: "none", rank: 1}, "Mag Hold, MHO, ElectromagneticHoldOpenDevice, Magnetic Hold Open"},

	{meaning{field: doorsched.AccessControlled.ID(), how: access}, "Access Control, Access Controlled, AC, ACS, Access; Security"},
	{meaning{field: doorsched.AccessControlled.ID(), how: access, yes: "card", no: "none", instead: doorsched.Reader.ID(), rank: 2}, "Card Reader"},
	{meaning{field: doorsched.Reader.ID(), how: access, yes: "card", no: "none"}, "Reader, Reader Type"},
	{meaning{field: doorsched.Reader.ID(), how: access, yes: "keypad", rank: 1}, "Keypad"},
	{meaning{field: doorsched.AccessControlled.ID(), how: electric, rank: 3}, "Electrified; Electric locking, Electric Lock Y/N; EL"},
	{meaning{field: doorsched.Lock.ID(), how: access, yes: "electromagnetic", rank: 1}, "Mag Lock, Magnetic Lock"},
	{meaning{field: doorsched.Lock.ID(), how: access, yes: "electric_strike", rank: 2}, "Electric Strike, Electric Release"},
	{meaning{field: doorsched.Override.ID(), how: access, yes: "green", no: "none"}, "Break glass, Break Glass Unit, BGU, Emergency Door Release, EDR"},
	{meaning{field: doorsched.DoorContact.ID(), how: access}, "Reed switch, Door Contact, Door Position Switch, DPS"},
}

// class is what a group label, or a neighbouring column, speaks about.
type class string

const (
	ofDoor     class = "door"
	ofFrame    class = "frame"
	ofHardware class = "hardware"
	ofGlass    class = "glass"
	ofToRoom   class = "to room"
	ofFromRoom class = "from room"
	ofOpening  class = "opening"
	ofWall     class = "structural opening"
	ofFire     class = "fire"
	ofSign     class = "sign"
	ofSound    class = "sound"
	ofInactive class = "inactive leaf"
)

// groups names the classes of group labels. A label that is not here says
// nothing, and the label above it is asked.
var groups = []struct {
	class class
	names string
}{
	{ofDoor, "Door, Doors, Leaf, Door Leaf, Panel, Door Panel, Doorset, Door Data, Door Information, Door Details, Active Leaf, Leaf Data"},
	{ofFrame, "Frame, Frames, Door Frame, Lining, Frame / Lining, Frame Data, Frame Information, Frame Details"},
	{ofHardware, "Hardware, Door Hardware, Finish Hardware, Ironmongery, Hdw, HDWR, HW"},
	{ofGlass, "Glazing, Glass, Vision Panel, Lite, Vision Lite, Light, Sidelight, Fanlight"},
	{ofToRoom, "To Room, Room, Location, To, Room To"},
	{ofFromRoom, "From Room, From, Room From"},
	{ofOpening, "Opening, Nominal Opening, Door Opening, Opening Size"},
	{ofWall, "Structural Opening, S.O., Rough Opening, R.O., Wall Opening, Masonry Opening, Structural Opening Size"},
	{ofFire, "Fire, Fire Performance, Fire Rating, Fire Data"},
	{ofSign, "Sign, Signage, Signs"},
	{ofSound, "Acoustic, Acoustics, Sound"},
	{ofInactive, "Inactive Leaf, Passive Leaf, Slave Leaf"},
}

// choiceOfClass lists, for one ambiguous heading, the field per class. A class
// that is named with no field has a note; a class not named leaves the question
// to the next label above.
type choiceOfClass map[class]meaning

func is(f interface{ ID() doorsched.FieldID }) meaning { return meaning{field: f.ID()} }

func nothing(note string) meaning { return meaning{how: unread, note: note} }

var ambiguous = []struct {
	names string
	by    choiceOfClass
}{
	{"Material, Matl, Mat., Construction, Core", choiceOfClass{
		ofDoor: is(doorsched.DoorMaterial), ofFrame: is(doorsched.FrameMaterial), ofGlass: nothing("material of glass is not read"),
		ofHardware: nothing("material of hardware is not read"), ofSign: nothing("material of a sign is not read")}},
	{"Finish, Fin., Colour, Color", choiceOfClass{
		ofDoor: is(doorsched.DoorFinish), ofFrame: is(doorsched.FrameFinish), ofGlass: nothing("finish of glass is not read"),
		ofHardware: nothing("finish of hardware is not read"), ofSign: nothing("finish of a sign is not read")}},
	{"Type, Elev., Elevation, Style", choiceOfClass{
		ofDoor: is(doorsched.DoorType), ofOpening: is(doorsched.DoorType), ofFrame: is(doorsched.FrameType), ofGlass: is(doorsched.Glazing),
		ofHardware: {field: doorsched.HardwareSet.ID(), rank: 1}, ofSign: is(doorsched.SignType), ofToRoom: nothing("type of room is not read"), ofFromRoom: nothing("type of room is not read"),
		ofFire: nothing("type of fire protection is not read"), ofWall: nothing("type of opening is not read")}},
	{"Number, No., Ref, Mark, Tag, ID", choiceOfClass{
		ofDoor: is(doorsched.Mark), ofOpening: is(doorsched.Mark), ofHardware: is(doorsched.HardwareSet), ofToRoom: is(doorsched.RoomTo), ofFromRoom: is(doorsched.RoomFrom),
		ofFrame: is(doorsched.FrameType), ofGlass: is(doorsched.Glazing), ofSign: is(doorsched.SignType), ofWall: nothing("number of the wall opening is not read")}},
	{"Name", choiceOfClass{
		ofToRoom: is(doorsched.RoomName), ofFromRoom: {field: doorsched.RoomFrom.ID(), rank: 2}, ofDoor: {field: doorsched.Mark.ID(), rank: 3}}},
	{"Size, Dimensions, W x H", choiceOfClass{
		ofDoor: {field: doorsched.Width.ID(), how: size, rank: 1}, ofOpening: {field: doorsched.Width.ID(), how: size, rank: 1}, ofFrame: nothing(notADoor),
		ofGlass: nothing("size of glass is not read"), ofWall: nothing(notLeafSize), ofHardware: nothing("size of hardware is not read"), ofSign: nothing("size of a sign is not read")}},
	{"Width, W, Wd", choiceOfClass{
		ofDoor: is(doorsched.Width), ofOpening: is(doorsched.Width), ofFrame: nothing(notADoor), ofGlass: nothing("size of glass is not read"), ofWall: nothing(notLeafSize),
		ofInactive: is(doorsched.InactiveWidth), ofSign: nothing("size of a sign is not read")}},
	{"Height, H, Hgt, Ht", choiceOfClass{
		ofDoor: is(doorsched.Height), ofOpening: is(doorsched.Height), ofFrame: nothing(notADoor), ofGlass: nothing("size of glass is not read"), ofWall: nothing(notLeafSize),
		ofInactive: nothing("height of the inactive leaf is not read"), ofSign: nothing("size of a sign is not read")}},
	{"Thickness, Thk, T, Depth", choiceOfClass{
		ofDoor: is(doorsched.Thickness), ofOpening: is(doorsched.Thickness), ofFrame: nothing(notADoor), ofGlass: nothing("thickness of glass is not read"), ofWall: nothing("thickness of the wall is not read"),
		ofInactive: nothing("thickness of the inactive leaf is not read")}},
	{"Rating, Resistance, Label, Min.", choiceOfClass{
		ofFire: is(doorsched.FireRating), ofDoor: is(doorsched.FireRating), ofOpening: is(doorsched.FireRating), ofSound: is(doorsched.Acoustic),
		ofFrame: nothing("rating of the frame is not read; the assembly's is"), ofGlass: nothing("rating of glass is not read; the assembly's is"), ofHardware: nothing("rating of hardware is not read")}},
	{"Set, Group, Schedule", choiceOfClass{ofHardware: is(doorsched.HardwareSet)}},
	{"Detail, Details", choiceOfClass{ofFrame: nothing("frame details without head, jamb or sill are not read")}},
}

// lexicon is the vocabulary by key. It is filled while the package's variables
// are initialised and never written afterwards.
type lexicon struct {
	names     map[string]meaning
	ambiguous map[string]choiceOfClass
	groups    map[string]class
	long      []string // keys long enough for a slip to be recognised, sorted
	twice     []string // keys with two meanings; a test demands none
}

var words = newLexicon()

func newLexicon() *lexicon {
	x := &lexicon{names: map[string]meaning{}, ambiguous: map[string]choiceOfClass{}, groups: map[string]class{}}
	for _, t := range terms {
		for lower, list := range strings.Split(t.names, ";") {
			m := t.meaning
			m.rank += lower
			for _, n := range strings.Split(list, ",") {
				k := key(n)
				if _, taken := x.names[k]; taken {
					x.twice = append(x.twice, n)
					continue
				}
				x.names[k] = m
			}
		}
	}
	for _, a := range ambiguous {
		for _, n := range strings.Split(a.names, ",") {
			x.ambiguous[key(n)] = a.by
		}
	}
	for _, g := range groups {
		for _, n := range strings.Split(g.names, ",") {
			x.groups[key(n)] = g.class
		}
	}
	x.addTable()
	x.long = longKeys(x.names)
	return x
}

// addTable adds the field table's own words where the vocabulary has no other
// meaning for them, so that a field of the table can always be named.
func (x *lexicon) addTable() {
	for _, f := range doorsched.Fields() {
		for _, n := range []string{f.US, f.UK, f.Name} {
			x.addWord(n, meaning{field: f.ID})
		}
		for _, a := range f.Aliases {
			x.addWord(a.Name, meaning{field: f.ID, unit: a.Unit, means: a.Means})
		}
	}
}

func (x *lexicon) addWord(n string, m meaning) {
	k := key(n)
	if _, taken := x.names[k]; !taken {
		x.names[k] = m
	}
}
