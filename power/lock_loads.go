package power

import (
	"time"

	"example.com/lockrail/cable"
)

// Device is a kind of load, named as the trade names it.
type Device string

const (
	Strike            Device = "electric strike"
	MagneticLock      Device = "electromagnetic lock"
	ShearLock         Device = "electromagnetic shear lock"
	DelayedEgressLock Device = "delayed-egress magnetic lock"
	MortiseLock       Device = "electrified mortise lock"
	CylindricalLock   Device = "electrified cylindrical lock"
	ExitTrim          Device = "electrified exit device trim"
	LatchRetraction   Device = "exit device latch retraction"
	Bolt              Device = "electric bolt / drop bolt"
	Reader            Device = "card reader"
	KeypadReader      Device = "card reader with keypad"
	BiometricReader   Device = "biometric reader"
	ExitDetector      Device = "request-to-exit detector"
	ExitButton        Device = "request-to-exit button"
	TouchBar          Device = "touch-sense bar"
	DoorContact       Device = "door position contact"
	BoltMonitor       Device = "latch-bolt or deadbolt monitor switch"
	Sounder           Device = "local sounder"
	Indicator         Device = "indicator LED"
	Relay             Device = "interface relay"
	Controller        Device = "door controller"
)

// nature is how a device of a row draws its current; common practice, since the
// ranges do not say.
type nature uint8

const (
	coil      nature = iota // constant resistance
	current                 // constant current
	converter               // constant power
)

// Range is a row of the generic loads of the trade: currents between which most
// products lie. All rows are common practice.
type Range struct {
	Device     Device
	Variant    string
	Nominal    cable.Volts
	Low, High  cable.Amps
	InrushLow  cable.Amps // zero: none given
	InrushHigh cable.Amps
	InrushFor  time.Duration // zero: not given
	Duty       string
	nature     nature
}

var ranges = [...]Range{
	{Strike, "standard duty, continuous-rated coil", 12, 0.2, 0.5, 0, 0, 0, "fail secure: momentary; fail safe: continuous", coil},
	{Strike, "standard duty, continuous-rated coil", 24, 0.1, 0.25, 0, 0, 0, "fail secure: momentary; fail safe: continuous", coil},
	{Strike, "heavy duty or surface rim-exit type", 12, 0.35, 0.65, 0, 0, 0, "momentary or continuous", coil},
	{Strike, "heavy duty or surface rim-exit type", 24, 0.17, 0.33, 0, 0, 0, "momentary or continuous", coil},
	{Strike, "low-power / pulse-width controlled", 12, 0.08, 0.25, 0.3, 0.6, 250 * time.Millisecond, "continuous hold after pull-in", current},
	{Strike, "low-power / pulse-width controlled", 24, 0.05, 0.15, 0.2, 0.4, 250 * time.Millisecond, "continuous hold after pull-in", current},
	{MagneticLock, "300 lbf (1.3 kN)", 12, 0.15, 0.35, 0, 0, 0, "continuous", coil},
	{MagneticLock, "300 lbf (1.3 kN)", 24, 0.08, 0.18, 0, 0, 0, "continuous", coil},
	{MagneticLock, "600 lbf (2.7 kN)", 12, 0.25, 0.55, 0, 0, 0, "continuous", coil},
	{MagneticLock, "600 lbf (2.7 kN)", 24, 0.12, 0.28, 0, 0, 0, "continuous", coil},
	{MagneticLock, "1200 lbf (5.3 kN)", 12, 0.3, 0.7, 0, 0, 0, "continuous", coil},
	{MagneticLock, "1200 lbf (5.3 kN)", 24, 0.15, 0.35, 0, 0, 0, "continuous", coil},
	{MagneticLock, "1500 lbf and above (6.7 kN)", 12, 0.4, 0.8, 0, 0, 0, "continuous", coil},
	{MagneticLock, "1500 lbf and above (6.7 kN)", 24, 0.2, 0.5, 0, 0, 0, "continuous", coil},
	{ShearLock, "concealed", 12, 0.4, 1.0, 1.0, 2.5, 1000 * time.Millisecond, "continuous", coil},
	{ShearLock, "concealed", 24, 0.2, 0.5, 0.5, 1.3, 1000 * time.Millisecond, "continuous", coil},
	{DelayedEgressLock, "with controller, sounder and indicator", 24, 0.35, 0.9, 0, 0, 0, "continuous", current},
	{DelayedEgressLock, "with controller, sounder and indicator", 12, 0.6, 1.4, 0, 0, 0, "continuous", current},
	{MortiseLock, "solenoid", 12, 0.4, 0.9, 0, 0, 0, "fail safe: continuous; fail secure: momentary", coil},
	{MortiseLock, "solenoid", 24, 0.2, 0.5, 0, 0, 0, "fail safe: continuous; fail secure: momentary", coil},
	{MortiseLock, "motor-driven or low-power", 24, 0.01, 0.15, 0.2, 0.6, 300 * time.Millisecond, "hold after change of state", current},
	{MortiseLock, "motor-driven or low-power", 12, 0.02, 0.25, 0.3, 0.9, 300 * time.Millisecond, "hold after change of state", current},
	{CylindricalLock, "solenoid", 24, 0.18, 0.5, 0, 0, 0, "as mortise", coil},
	{CylindricalLock, "solenoid", 12, 0.35, 0.8, 0, 0, 0, "as mortise", coil},
	{ExitTrim, "solenoid", 24, 0.15, 0.5, 0, 0, 0, "fail safe or fail secure", coil},
	{LatchRetraction, "motorised", 24, 0.1, 0.4, 0.7, 2.0, 1000 * time.Millisecond, "momentary or dogged; size cable on inrush", current},
	{LatchRetraction, "solenoid", 24, 0.3, 1.0, 10, 16, 300 * time.Millisecond, "needs a supply made for the inrush; size cable on inrush", coil},
	{Bolt, "solenoid", 12, 0.25, 0.5, 0.8, 1.2, 1000 * time.Millisecond, "continuous", coil},
	{Bolt, "solenoid", 24, 0.13, 0.3, 0.4, 0.7, 1000 * time.Millisecond, "continuous", coil},
	{Reader, "proximity, low frequency", 12, 0.03, 0.1, 0.1, 0.2, 0, "continuous", current},
	{Reader, "multi-technology smart card / mobile", 12, 0.06, 0.25, 0.15, 0.4, 0, "continuous", current},
	{KeypadReader, "", 12, 0.08, 0.3, 0.2, 0.45, 0, "continuous", current},
	{BiometricReader, "", 12, 0.25, 1.2, 0, 0, 0, "continuous", current},
	{BiometricReader, "", 24, 0.15, 0.6, 0, 0, 0, "continuous", current},
	{ExitDetector, "passive infra-red", 12, 0.015, 0.06, 0, 0, 0, "continuous", current},
	{ExitDetector, "passive infra-red", 24, 0.01, 0.04, 0, 0, 0, "continuous", current},
	{ExitButton, "unlit contact", 12, 0, 0, 0, 0, 0, "none", current},
	{ExitButton, "lit", 12, 0.01, 0.04, 0, 0, 0, "continuous", current},
	{ExitButton, "lit", 24, 0.01, 0.03, 0, 0, 0, "continuous", current},
	{TouchBar, "", 12, 0.02, 0.06, 0, 0, 0, "continuous", current},
	{TouchBar, "", 24, 0.02, 0.05, 0, 0, 0, "continuous", current},
	{DoorContact, "reed, passive", 12, 0, 0, 0, 0, 0, "none", current},
	{BoltMonitor, "passive", 24, 0, 0, 0, 0, 0, "none", current},
	{Sounder, "", 12, 0.02, 0.15, 0, 0, 0, "on alarm", current},
	{Sounder, "", 24, 0.015, 0.1, 0, 0, 0, "on alarm", current},
	{Indicator, "", 12, 0.005, 0.03, 0, 0, 0, "continuous", current},
	{Relay, "one pole", 12, 0.03, 0.06, 0, 0, 0, "continuous", coil},
	{Relay, "one pole", 24, 0.015, 0.03, 0, 0, 0, "continuous", coil},
	{Controller, "two-door board, no readers", 12, 0.15, 0.6, 0, 0, 0, "continuous", current},
	{Controller, "PoE single door, own draw", 48, 0.06, 0.15, 0, 0, 0, "continuous", converter},
}
