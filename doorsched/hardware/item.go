package hardware

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"

	"example.com/lockrail/doorsched"
)

// Leaf says which leaf of the opening an item or role belongs to. A single door
// has only an active leaf; LeafNone is the frame, the wall or the opening.
type Leaf string

// Leaves.
const (
	LeafNone     Leaf = ""
	LeafActive   Leaf = "active"
	LeafInactive Leaf = "inactive"
	LeafBoth     Leaf = "both"
)

// Action is what is to be done about an item.
type Action string

// Actions.
const (
	ActionNew      Action = "new"
	ActionExisting Action = "existing to remain"
	ActionReplace  Action = "replace"
	ActionRelocate Action = "relocate"
	ActionRemove   Action = "remove"
	ActionByOthers Action = "by others"
)

// Unit is what a quantity counts.
type Unit string

// Units.
const (
	Each  Unit = "EA"
	Pair  Unit = "PR"
	AsSet Unit = "SET"
)

// Section is a heading under which a set lists its items.
type Section string

// Sections of both regions; see SectionOrder.
const (
	SectionHang       Section = "hang"
	SectionClose      Section = "close" // UK: closers come second
	SectionSecure     Section = "secure"
	SectionOperate    Section = "operate" // UK: furniture apart from the lock
	SectionControl    Section = "control" // US: closers, coordinators, operators
	SectionProtect    Section = "protect"
	SectionElectronic Section = "electronic"
)

// RoleKind is what a device needs from, or gives to, the wiring.
type RoleKind string

// Kinds of role.
const (
	Feed    RoleKind = "feed"    // needs power
	Release RoleKind = "release" // on a lock or holder: must be let go by alarm or loss of power; on a button or unit: lets go directly
	Monitor RoleKind = "monitor" // gives a contact
	Data    RoleKind = "data"    // speaks on a data line
	Control RoleKind = "control" // is switched by, or orders, the controller
)

// Device is what wiring binds a role to.
type Device string

// Devices: the whole list.
const (
	DeviceLock             Device = "lock"
	DeviceReader           Device = "reader"
	DeviceREX              Device = "rex"
	DeviceExitButton       Device = "exit-button"
	DeviceEmergencyRelease Device = "emergency-release"
	DeviceContact          Device = "contact"
	DeviceLatchMonitor     Device = "latch-monitor"
	DeviceHoldOpen         Device = "hold-open"
	DeviceOperator         Device = "operator"
	DeviceTransfer         Device = "transfer"
	DeviceController       Device = "controller"
	DeviceSupply           Device = "supply"
)

// Devices lists every device a role may name.
func Devices() []Device {
	return []Device{DeviceLock, DeviceReader, DeviceREX, DeviceExitButton, DeviceEmergencyRelease, DeviceContact,
		DeviceLatchMonitor, DeviceHoldOpen, DeviceOperator, DeviceTransfer, DeviceController, DeviceSupply}
}

// Role is one thing one physical device asks of the wiring. A device with two
// roles (a reader: feed and data) has them under the same Device, Leaf and Index.
type Role struct {
	Kind   RoleKind
	Device Device
	Leaf   Leaf
	Index  int // counts alike devices from 1
}

// Item is one line of a hardware set.
type Item struct {
	ID       string // kind of item, from the table of kinds: "HNG-BUTT"
	Group    Section
	Name     string // in the region's words
	Quantity int
	Unit     Unit
	Function string // function number, grade, or what it must do
	Standard string
	Size     string
	Finish   string // the owner's to say: empty unless the schedule says
	Action   Action
	Leaf     Leaf
	// QtyRule says how the quantity was found, QtyStatus how far that rule was seen.
	QtyRule   string
	QtyStatus doorsched.Status
	Reason    string // why the set holds it
	Needs     []doorsched.FieldID
	Roles     []Role
}

// Set is the complete hardware of one door.
type Set struct {
	Region doorsched.Region
	Leaves int // 0: no set (out of scope, or an edition that cannot be judged)
	Items  []Item
	// Roles of the controller and the supply, which are not items of the set.
	Roles []Role
	// Overlay holds the fields that the set settles (closer, hinges, coordinator
	// …) where the schedule does not; see Proposed.
	Overlay doorsched.Record
	Needs   []doorsched.FieldID
	Assumed []doorsched.Assumption
	Notes   []string
}

// Item returns the first item of a kind.
func (s Set) Item(id string) (Item, bool) {
	i := slices.IndexFunc(s.Items, func(it Item) bool { return it.ID == id })
	if i < 0 {
		return Item{}, false
	}
	return s.Items[i], true
}

// Count returns how many of a kind the set holds.
func (s Set) Count(id string) int {
	n := 0
	for _, it := range s.Items {
		if it.ID == id {
			n += it.Quantity
		}
	}
	return n
}

// AllRoles returns the roles of every item and of the set itself, in order.
func (s Set) AllRoles() []Role {
	var out []Role
	for _, it := range s.Items {
		out = append(out, it.Roles...)
	}
	return append(out, s.Roles...)
}

// Content is the text that two equal sets share: everything that is bought or
// wired. Reasons, quantity rules and needs are not content.
func (s Set) Content() string {
	var b strings.Builder
	for _, it := range s.Items {
		fmt.Fprintf(&b, "%s|%d|%s|%s|%s|%s|%s|%s|%s", it.ID, it.Quantity, it.Unit, it.Function, it.Standard, it.Size, it.Finish, it.Action, it.Leaf)
		for _, r := range it.Roles {
			fmt.Fprintf(&b, "|%s/%s/%s/%d", r.Kind, r.Device, r.Leaf, r.Index)
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// Fingerprint is a short name of the content, for storing beside a set number.
func (s Set) Fingerprint() string {
	sum := sha256.Sum256([]byte(s.Content()))
	return hex.EncodeToString(sum[:8])
}
