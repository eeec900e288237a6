package cable

var table5Source = Source{"NEC Chapter 9 Table 5", Verified}

// table5Row is a row of NEC Chapter 9 Table 5; the area is the printed one, which
// is what Annex C was counted with, not that of a circle on the diameter.
type table5Row struct {
	types    string // separated by /
	gauge    int8
	diameter Inches // zero: not seen
	area     SquareInches
	status   Status
}

var table5 = [...]table5Row{
	{"THHN/THWN/THWN-2", 14, 0.111, 0.0097, Verified},
	{"THHN/THWN/THWN-2", 12, 0.13, 0.0133, Verified},
	{"THHN/THWN/THWN-2", 10, 0.164, 0.0211, Verified},
	{"THHN/THWN/THWN-2", 8, 0.216, 0.0366, Verified},
	{"THHN/THWN/THWN-2", 6, 0.254, 0.0507, Verified},
	{"THHN/THWN/THWN-2", 4, 0.324, 0.0824, Verified},
	{"THHN/THWN/THWN-2", 3, 0.352, 0.0973, Verified},
	{"THHN/THWN/THWN-2", 2, 0.384, 0.1158, Verified},
	{"THHN/THWN/THWN-2", 1, 0.446, 0.1562, Verified},
	{"XHHW/XHHW-2", 14, 0.133, 0.0139, Verified},
	{"XHHW/XHHW-2", 12, 0.152, 0.0181, Verified},
	{"XHHW/XHHW-2", 10, 0.176, 0.0243, Verified},
	{"XHHW/XHHW-2", 8, 0.236, 0.0437, Verified},
	{"XHHW/XHHW-2", 6, 0.274, 0.059, Verified},
	{"XHHW/XHHW-2", 4, 0.322, 0.0814, Verified},
	{"TW/THW/THHW", 14, 0.133, 0.0139, Verified},
	{"TW/THW/THHW", 12, 0.152, 0.0181, Verified},
	{"TW/THW/THHW", 10, 0.176, 0.0243, Verified},
	{"TW/THW/THHW", 8, 0.236, 0.0437, Verified},
	{"TW/THW/THHW", 6, 0.304, 0.0726, Verified},
	{"TW/THW/THHW", 4, 0.352, 0.0973, Verified},
	{"TFN/TFFN", 18, 0.084, 0.0055, Verified},
	{"TFN/TFFN", 16, 0.096, 0.0072, Verified},
	{"RFH-2/FFH-2", 18, 0.136, 0.0145, Verified},
	{"RFH-2/FFH-2", 16, 0.148, 0.0172, Verified},
	{"RHH/RHW/RHW-2", 14, 0.193, 0.0293, Verified},
	{"RHH/RHW/RHW-2", 12, 0.212, 0.0353, Verified},
	{"RHH/RHW/RHW-2", 10, 0.236, 0.0437, Verified},
	{"RHH/RHW/RHW-2", 8, 0.326, 0.0835, Verified},
	{"RHH/RHW/RHW-2", 6, 0.364, 0.1041, Verified},
	{"RHH/RHW/RHW-2", 4, 0.412, 0.1333, Verified},
	{"SF-2/SFF-2", 18, 0.121, 0.0115, Verified},
	{"SF-2/SFF-2", 16, 0.133, 0.0139, Verified},
	{"SF-2/SFF-2", 14, 0.148, 0.0172, Verified},
	{"SF-1/SFF-1", 18, 0.091, 0.0065, Verified},
	{"TF/TFF/XF/XFF/RFH-1", 18, 0.106, 0.0088, Memory},
	{"TF/TFF/XF/XFF", 16, 0.118, 0.0109, Verified},
	{"PF/PFF/PAF/PTF", 16, 0, 0.0075, Verified},
}
