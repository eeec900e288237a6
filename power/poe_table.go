package power

import "example.com/lockrail/cable"

// EthernetType is a type of power over Ethernet, IEEE 802.3 clauses 33 and 145.
type EthernetType struct {
	Number         int
	MinVolts       cable.Volts // at the source
	MaxVolts       cable.Volts
	SourceWatts    cable.Watts // the least a source of the type gives
	DeviceWatts    cable.Watts // the most a device may take
	PairsetAmps    cable.Amps
	Pairsets       int         // 2 when all four pairs carry current
	ReferenceOhms  cable.Ohms  // pair loop the type is specified over: two conductors of a pair in parallel, out and back
	DeviceMinVolts cable.Volts // the least a device must work at
	DeviceMin      cable.Source
}

var ethernetSource = cable.Source{Text: "IEEE 802.3 clauses 33 and 145", Status: cable.Verified}

var (
	deviceMinSeen       = cable.Source{Text: "IEEE 802.3", Status: cable.Verified}
	deviceMinDisputed   = cable.Source{Text: "IEEE 802.3: copies print 42.5 V, 39.9 V is remembered; the higher one is taken", Status: cable.Verified}
	deviceMinRemembered = cable.Source{Text: "IEEE 802.3 clause 145", Status: cable.Memory}
)

var ethernetTypes = [...]EthernetType{
	{1, 44, 57, 15.4, 12.95, 0.35, 1, 20, 37, deviceMinSeen},
	{2, 50, 57, 30, 25.5, 0.6, 1, 12.5, 42.5, deviceMinSeen},
	{3, 50, 57, 60, 51, 0.6, 2, 12.5, 42.5, deviceMinDisputed},
	{4, 52, 57, 90, 71.3, 0.96, 2, 12.5, 41.1, deviceMinRemembered},
}

// EthernetTypes lists the types.
func EthernetTypes() []EthernetType { return append([]EthernetType(nil), ethernetTypes[:]...) }

// EthernetClass is a power class of a device.
type EthernetClass struct {
	Number      int
	Type        int // the least type of source that serves it
	Pairsets    int
	SourceWatts cable.Watts // the source sets aside at least
	DeviceWatts cable.Watts // the device takes at most
}

var ethernetClasses = [...]EthernetClass{
	{0, 1, 1, 15.4, 12.95},
	{1, 1, 1, 4, 3.84},
	{2, 1, 1, 7, 6.49},
	{3, 1, 1, 15.4, 12.95},
	{4, 2, 1, 30, 25.5},
	{5, 3, 2, 45, 40},
	{6, 3, 2, 60, 51},
	{7, 4, 2, 75, 62},
	{8, 4, 2, 90, 71.3},
}

// EthernetClasses lists the classes 0 to 8.
func EthernetClasses() []EthernetClass { return append([]EthernetClass(nil), ethernetClasses[:]...) }

// ClassFor is the least class that serves a device of this power; class 0, a
// device that does not say its class, is never chosen. False above class 8.
func ClassFor(device cable.Watts) (EthernetClass, bool) {
	for _, c := range ethernetClasses[1:] {
		if device >= 0 && device <= c.DeviceWatts {
			return c, true
		}
	}
	return EthernetClass{}, false
}

// The worst channel the standard allows: 12.5 ohm of pair loop over 100 m.
const worstPairset cable.OhmsPerKilometre = 125

var worstPairsetSource = cable.Source{Text: "IEEE 802.3 worst case, 12.5 ohm of pair loop over 100 m", Status: cable.Verified}

// twoPairLimit is the most a device may take over two pairs.
const twoPairLimit cable.Watts = 25.5
