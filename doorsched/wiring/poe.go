package wiring

import (
	"errors"
	"fmt"

	"example.com/lockrail/cable"
	"example.com/lockrail/doorsched"
	"example.com/lockrail/power"
)

const (
	defaultPoEType = 2
	mostPoEType    = 4
	// converterEfficiency is that of the converter from the port to lock and
	// readers (common practice: 80 to 90 %).
	converterEfficiency = 0.85
)

// port checks a controller at the door against its switch port: its own draw, the
// readers and detectors, and the lock where the controller feeds it.
func (b *bench) port(l lockLoad, f feed) {
	own, err := power.FindLoad(power.Controller, "PoE single door, own draw", 48)
	if err != nil {
		return
	}
	kind, firm := b.poeType()
	asked := own.Rated.Carrying(own.Holding.AmpsAt(own.Rated))
	b.assume(doorsched.NoField, "own draw of the door controller", watts(asked), "generic; "+own.Range.Source().String())
	var behind cable.Watts // what the converter gives
	for _, d := range b.smallLoads(l.nominal) {
		for range d.Quantity {
			behind += d.Load.Rated.Carrying(d.Load.Holding.AmpsAt(d.Load.Rated))
		}
		b.assume(doorsched.NoField, "current of "+d.Load.Name, amps(d.Load.Holding.AmpsAt(d.Load.Rated)), "generic; "+d.Load.Range.Source().String())
	}
	if f.atDoor {
		most := l.Holding.AmpsAt(l.nominal)
		if l.Inrush != nil {
			most = max(most, l.Inrush.AmpsAt(l.nominal))
		}
		for range b.locks() {
			behind += l.nominal.Carrying(most)
		}
	}
	asked += cable.Watts(float64(behind) / converterEfficiency)
	b.assume(doorsched.NoField, "efficiency of the controller's converter", doorsched.FormatNumber(100*converterEfficiency, 0)+" %", "not asked for; common practice")

	length := b.homeRun()
	result, err := power.Ethernet{Type: kind, Length: length.value, Load: asked}.Solve()
	var collapse *power.CollapseError
	if err != nil && !errors.As(err, &collapse) {
		return
	}
	b.assumeAll(result.Assumptions)
	b.circuit.PoE = doorsched.Known(PoE{
		Type: kind, Class: result.Class, Watts: asked, WattsMax: result.DeviceWattsMax,
		Fits: result.Fits, LeastType: result.LeastType,
	})
	if length.firm && result.BeyondChannel {
		b.judgeChannel(length.value)
	}
	if !result.Fits && firm && length.firm && (!f.atDoor || l.firmHolding && l.firmInrush) {
		b.judgePort(kind, length.value, asked, result)
	}
}

func (b *bench) poeType() (kind int, firm bool) {
	t := read(b.door.View, doorsched.PoEType)
	if t.known {
		if t.value >= 1 && t.value <= mostPoEType {
			return int(t.value), t.firm
		}
		b.unusable(doorsched.PoEType.ID(), "types are 1 to 4")
	} else {
		b.need(doorsched.PoEType.ID())
	}
	b.assume(doorsched.PoEType.ID(), "", fmt.Sprint(defaultPoEType), "not given; the usual switch port")
	return defaultPoEType, false
}

func (b *bench) judgePort(kind int, length cable.Metres, asked cable.Watts, r power.EthernetResult) {
	f := doorsched.Finding{
		Rule: "poe-power", Fields: []doorsched.FieldID{doorsched.PoEType.ID()},
		Value: doorsched.NumberOf(float64(asked), "W"), Limit: doorsched.NumberOf(float64(r.DeviceWattsMax), "W"),
		Citation: doorsched.Citation{Document: "IEEE 802.3", Clause: "33 and 145", Status: doorsched.Verified},
		Message: fmt.Sprintf("Controller, readers and what it feeds ask %s; a type %d port gives %s at the end of %s. Controller and readers are generic loads.",
			watts(asked), kind, watts(r.DeviceWattsMax), b.words.length(length)),
	}
	for _, id := range b.electricalFields() {
		switch id {
		case doorsched.LockVolts.ID(), doorsched.LockAmps.ID(), doorsched.LockInrush.ID(), doorsched.CableLength.ID():
			f.Fields = append(f.Fields, id)
		}
	}
	if r.LeastType > 0 {
		// The type was tried in full over this cable.
		if better, err := (power.Ethernet{Type: r.LeastType, Length: length, Load: asked}).Solve(); err == nil && better.Fits {
			f.Remedies = append(f.Remedies, fmt.Sprintf("a type %d port: %s at the end of the run", r.LeastType, watts(better.DeviceWattsMax)))
		}
	}
	f.Remedies = append(f.Remedies, "the lock on a "+b.supply+" of its own instead of the controller")
	b.find(f)
}

func (b *bench) judgeChannel(length cable.Metres) {
	limit, ok := cable.EthernetChannel.Limit()
	if !ok {
		return
	}
	b.find(doorsched.Finding{
		Rule: "data-length", Fields: []doorsched.FieldID{doorsched.CableLength.ID()},
		Value: doorsched.NumberOf(float64(length), "m"), Limit: doorsched.NumberOf(float64(limit.Longest), "m"),
		Citation: doorsched.Citation{Document: limit.Source.Text, Status: doorsched.Status(limit.Source.Status)},
		Message: fmt.Sprintf("The data run to the controller at the door is %s; a channel is at most %s (%s).",
			b.words.length(length), b.words.length(limit.Longest), limit.Note),
	})
}
