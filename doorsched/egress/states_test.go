package egress

import (
	"slices"
	"strings"
	"testing"

	"example.com/lockrail/doorsched"
	"github.com/google/go-cmp/cmp"
)

// stateCase is one door and what one rule makes of it: the state, then the items
// broken or the fields needed. "site" stands for a rule that waits for the site.
type stateCase struct{ inputs, want string }

const (
	us = doorsched.IBC2021
	uk = doorsched.England2019
)

// states holds cases per rule and edition. Limits are those of the rows of
// testdata/egress that the rule names, where source and status stand.
var states = map[string]map[doorsched.Edition][]stateCase{
	"access-monitoring": {uk: {
		{"access_point=no", "not applicable"},
		{"access_point=yes; grade=1; door_contact=no", "not applicable"},
		{"access_point=yes; grade=2; door_contact=yes", "held"},
		{"access_point=yes; grade=2; door_contact=no; open_time_scope=system", "broken: door contact"},
		{"access_point=yes; grade=3; door_contact=yes; open_time_scope=system; open_time_per_portal=no", "broken: one open time, open time per door"},
		{"access_point=yes; grade=3; door_contact=yes", "not judged: open_time_scope, open_time_per_portal"},
		{"access_point=yes", "not judged: grade"},
	}},
	"accessible-width": {
		us: {
			{"accessible=no; clear_width=700 mm", "not applicable"},
			{"accessible=yes; clear_width=32 in", "held"},
			{"accessible=yes; clear_width=31.9 in", "broken: accessible"},
			{"accessible=yes; leaves=1; width=3-0", "held"},
			{"accessible=yes; leaves=1; width=2-10", "not judged: clear_width"},
			{"accessible=yes; leaves=1; width=31 in", "broken: accessible, leaf narrower"},
			{"clear_width=32 in", "not judged: accessible"},
		},
		// Approved Document M volume 2 Table 2 as quoted.
		uk: {
			{"accessible=no; clear_w_mm=700", "not applicable"},
			{"accessible=yes; building=new; approach=straight; clear_w_mm=800", "held"},
			{"accessible=yes; building=new; approach=straight; clear_w_mm=799", "broken: straight on"},
			{"accessible=yes; building=existing; approach=straight; clear_w_mm=750", "held"},
			{"accessible=yes; building=existing; approach=straight; clear_w_mm=749", "broken: straight on"},
			{"accessible=yes; approach=straight; clear_w_mm=749", "broken: straight on"},
			{"accessible=yes; approach=straight; clear_w_mm=760", "not judged: building_age"},
			{"accessible=yes; building=new; approach=right_angle; route_w_mm=1199; clear_w_mm=700", "not applicable"},
			{"accessible=yes; building=new; approach=right_angle; route_w_mm=1200; clear_w_mm=824", "broken: turning from a route of 1200 mm"},
			{"accessible=yes; building=new; approach=right_angle; route_w_mm=1499; clear_w_mm=825", "held"},
			{"accessible=yes; building=new; approach=right_angle; route_w_mm=1500; clear_w_mm=800", "held"},
			{"accessible=yes; building=new; approach=right_angle; route_w_mm=1500; clear_w_mm=799", "broken: turning from a route of 1500 mm"},
			{"accessible=yes; building=existing; approach=right_angle; route_w_mm=1300; clear_w_mm=774", "broken: turning from a route of 1200 mm"},
			{"accessible=yes; building=existing; approach=right_angle; route_w_mm=1300; clear_w_mm=775", "held"},
			{"accessible=yes; clear_w_mm=825", "held"},
			{"accessible=yes; clear_w_mm=824", "not judged: approach"},
			{"accessible=yes; building=new; approach=straight; leaves=1; width=926", "not judged: clear_width"},
			{"accessible=yes; building=new; approach=straight; leaves=1; width=790", "broken: straight on, leaf narrower"},
		},
	},
	"alarm-actuation": {uk: {
		{"on_escape_route=yes; electric_lock=none", "not applicable"},
		{"on_escape_route=yes; electric_lock=magnet; mechanical_egress=yes", "not applicable"},
		{held60 + "final_exit=yes; actuation_category=A", "held"},
		{held60 + "final_exit=yes; actuation_category=B", "broken: critical"},
		{held60 + "final_exit=no; escape_stair=no; exit_control=no; actuation_category=B", "held"},
		{held60 + "final_exit=no; escape_stair=no; exit_control=no; actuation_category=C", "broken: indirect"},
		{held60 + "final_exit=yes", "not judged: actuation_category"},
	}},
	"bar-length": {us: {
		{"egress=required; hw=lever", "not applicable"},
		{"hw=panic; leaves=1; width=3-0; bar_w_in=18", "held"},
		{"hw=panic; leaves=1; width=3-0; bar_w_in=17.9", "broken: bar length"},
		{"hw=panic; leaves=1; width=3-0", "site: bar_width"},
		{"hw=panic; bar_w_in=18", "not judged: width"},
		{"width=3-0; leaves=1; egress=required", "not judged: hw"},
	}},
	"clear-width": {
		us: {
			{"egress=none; clear_width=20 in", "not applicable"},
			{"egress=required; clear_width=32 in; use=room", "held"},
			{"egress=required; clear_width=813 mm; use=room", "held"},
			{"egress=required; clear_width=812 mm; use=room; occ=B", "broken: 32 in"},
			{"egress=required; leaves=1; width=3-0; use=room", "held"},
			{"egress=required; leaves=1; width=2-10", "not judged: clear_width"},
			{"egress=required; leaves=1; width=2-2", "broken: 32 in, leaf narrower"},
			{"egress=required; leaves=2; width=5-0; width_is=opening; use=room; occ=B", "broken: 32 in, leaf narrower"},
			{"egress=required; leaves=2; width=6-0; use=room", "held"},
			{"egress=required; width=6-0", "not judged: leaves"},
			{"egress=required", "not judged: clear_width"},
			{"clear_width=20 in", "not judged: egress"},
			{"egress=required; clear_width=36 in", "not judged: use"},
			{"egress=required; clear_width=42 in", "held"},
			{"egress=required; clear_width=41 in; use=patient_room; occ=I-2", "broken: beds"},
			{"egress=required; clear_width=41.5 in; use=patient_room; occ=I-2", "held"},
			{"egress=required; clear_width=30 in; occ=I-3; use=resident_sleeping; accessible=no", "held"},
			{"egress=required; clear_width=30 in; occ=I-3; use=resident_sleeping", "not judged: accessible"},
			{"egress=required; clear_width=27 in; occ=I-3; use=resident_sleeping; accessible=no", "broken: 32 in"},
		},
		uk: {
			{"on_escape_route=no; persons=60; clear_w_mm=700", "not applicable"},
			{"on_escape_route=yes; persons=60; clear_w_mm=750", "held"},
			{"on_escape_route=yes; persons=60; clear_w_mm=749", "broken: up to 60"},
			{"on_escape_route=yes; persons=61; clear_w_mm=849", "broken: up to 110"},
			{"on_escape_route=yes; persons=61; clear_w_mm=850", "held"},
			{"on_escape_route=yes; persons=110; clear_w_mm=850", "held"},
			{"on_escape_route=yes; persons=111; clear_w_mm=850", "broken: up to 220"},
			{"on_escape_route=yes; persons=220; clear_w_mm=1050", "held"},
			{"on_escape_route=yes; persons=221; clear_w_mm=1104", "broken: above 220"},
			{"on_escape_route=yes; persons=221; clear_w_mm=1105", "held"},
			{"on_escape_route=yes; persons=60; leaves=1; width=926", "not judged: clear_width"},
			{"on_escape_route=yes; persons=100; leaves=1; width=826", "broken: up to 110, leaf narrower"},
			{"on_escape_route=yes; persons=200; leaves=2; width=1652; width_is=opening", "not judged: clear_width"},
			{"on_escape_route=yes; clear_w_mm=700", "not judged: serves_ol"},
		},
	},
	"combined-load": {us: {
		{"egress=required; use=room; occ=B; combined_a_load=90; latch=yes; hw=lever", "not applicable"},
		{"use=suite_exit; occ=B; combined_a_load=49; latch=yes; hw=lever", "held"},
		{"use=suite_exit; occ=B; combined_a_load=50; latch=yes; hw=lever", "broken: combined load"},
		{"use=suite_exit; occ=B; combined_a_load=50; latch=yes; hw=panic", "held"},
		{"use=suite_exit; occ=B; latch=yes; hw=lever", "not judged: combined_a_load"},
		{"use=suite_exit; occ=A-3; combined_a_load=90; latch=yes; hw=lever", "not applicable"},
	}},
	"controlled-egress": {us: {
		{"egress=required; lock=electromagnetic", "not applicable"},
		{controlled + "occ=I-2", "held"},
		{controlled + "occ=R-4", "broken: occupancy"},
		{"lock=controlled_egress; occ=I-1; sprinkler=13R; detection=partial; release_set={}; fail=secure; ce_in_path=2; in_plan=no; staff_keys=no; emlight=no; listed=none; exempt=no; use=room",
			"broken: building, release on fire, power loss, remote switch, path, plan, staff, light, listing"},
		{"lock=controlled_egress; occ=I-2; sprinkler=13; release_set={}; fail=secure; ce_in_path=2; in_plan=yes; staff_keys=yes; emlight=yes; listed=UL294; use=psychiatric", "held"},
		{"lock=controlled_egress; occ=I-2; sprinkler=13; use=psychiatric; in_plan=yes; staff_keys=yes; emlight=yes", "not judged: listed"},
	}},
	"delayed-egress": {
		us: {
			{"egress=required; lock=electromagnetic", "not applicable"},
			{delayed + "occ=B; delay_s=15", "held"},
			{delayed + "occ=B; delay_s=16; ahj_30s=no", "broken: delay"},
			{delayed + "occ=B; delay_s=16", "not judged: ahj_30s"},
			{delayed + "occ=B; delay_s=30; ahj_30s=yes", "broken: approved delay"},
			{delayed + "occ=B; delay_s=31; ahj_30s=yes", "broken: delay"},
			{delayed + "occ=A-4; delay_s=15; use=room", "broken: occupancy"},
			{delayed + "occ=H-2; delay_s=15; use=room", "broken: occupancy"},
			{delayed + "occ=E; use=classroom; serves_ol=49; delay_s=15", "held"},
			{delayed + "occ=E; use=classroom; serves_ol=50; delay_s=15", "broken: occupancy"},
			{delayed + "occ=A-3; use=courtroom; main_exterior=no; delay_s=15", "held"},
			{delayed + "occ=A-3; use=courtroom; main_exterior=yes; delay_s=15", "broken: occupancy"},
			{strings.Replace(delayed, "de_in_path=1", "de_in_path=2; sum_delay_s=30", 1) + "occ=I-2; delay_s=15", "held"},
			{strings.Replace(delayed, "de_in_path=1", "de_in_path=2; sum_delay_s=31", 1) + "occ=I-2; delay_s=15", "broken: path"},
			{strings.Replace(delayed, "sprinkler=13", "sprinkler=none; detection=full", 1) + "occ=M; delay_s=15", "held"},
			{strings.Replace(delayed, "sprinkler=13", "sprinkler=13R; detection=none", 1) + "occ=M; delay_s=15", "broken: building"},
			{strings.Replace(delayed, "sign_dist_in=6", "", 1) + "occ=M; delay_s=15", "site: sign_dist"},
			{"lock=delayed_egress; occ=B; sprinkler=13; delay_s=15; release_set={smoke}; fail=secure; rearm=automatic; de_in_path=1; sign=no; sign_dist_in=6; emlight=no; listed=none",
				"broken: power loss, rearming, sign, light, listing"},
			{"lock=delayed_egress", "not judged: occ, sprinkler, delay, release_set, fail, rearm, de_in_path, sign, emlight, listed"},
		},
		uk: {
			{"on_escape_route=yes; electric_lock=magnet; delay_s=0", "not applicable"},
			{"on_escape_route=yes; electric_lock=none; delay_s=15", "not applicable"},
			{delayedUK + "public_access=no; device=en13637", "held"},
			{delayedUK + "public_access=yes; device=en13637", "broken: public"},
			{delayedUK + "public_access=no; device=en1125", "broken: panic device"},
			{"on_escape_route=yes; electric_lock=magnet; delay_s=15; public_access=no; device=en13637; risk_assessment=yes; authority_agreed=no; release_on_fire_alarm=no; at_foot_of_stair=yes",
				"broken: agreement, fire alarm, crush"},
			{"on_escape_route=yes; electric_lock=magnet", "not judged: delay"},
		},
	},
	"edge-gaps": {
		us: {
			{"rating=NR; gap_in=1", "not applicable"},
			{"rating=60; door_mat=steel; gap_in=0.1875; undercut_in=0.75; sill_in=0", "held"},
			{"rating=60; door_mat=steel; gap_in=0.19; undercut_in=0.75; sill_in=0", "broken: steel"},
			{"rating=60; door_mat=steel; gap_in=0.06; undercut_in=0.75; sill_in=0", "broken: steel"},
			{"rating=60; door_mat=wood; frame=hollow_metal; gap_in=0.125; undercut_in=0.75; sill_in=0", "held"},
			{"rating=60; door_mat=wood; frame=hollow_metal; gap_in=0.126; undercut_in=0.75; sill_in=0", "broken: wood"},
			{"rating=20; door_mat=wood; frame=hollow_metal; gap_in=0.1875; undercut_in=0.75; sill_in=0", "held"},
			{"rating=20; door_mat=wood; frame=wood; gap_in=0.1875; undercut_in=0.75; sill_in=0", "broken: wood"},
			{"rating=20; door_mat=wood; frame=hollow_metal; gap_in=0.2; undercut_in=0.75; sill_in=0", "broken: wood to 20 min"},
			{"rating=60; door_mat=steel; gap_in=0.125; undercut_in=0.76; sill_in=0", "broken: bottom"},
			{"rating=60; door_mat=steel; gap_in=0.125; undercut_in=0.5; sill_in=39", "broken: bottom at a high sill"},
			{"rating=60; door_mat=steel; gap_in=0.125; undercut_in=0.5; sill_in=38", "held"},
			{"rating=60", "site: undercut, sill_height, gap"},
			{"rating=60; gap_in=0.2; undercut_in=0.3", "not judged: door_mat"},
			{"gap_in=0.125", "not judged: fire_rating"},
		},
		uk: {
			{"fire=FD30; threshold_gap_mm=9", "not applicable"},
			{"fire=FD30S; threshold_gap_mm=3", "held"},
			{"fire=FD30S; threshold_gap_mm=4; drop_seal=no", "broken: threshold gap"},
			{"fire=FD30S; threshold_gap_mm=4; drop_seal=yes", "held"},
			{"fire=FD30S", "site: undercut"},
			{"fire=FD30S; threshold_gap_mm=4", "not judged: drop_seal"},
		},
	},
	"electric-items-evidence": {uk: {
		{"fire=NR; lock=magnet", "not applicable"},
		{"fire=FD30; lock=mechanical", "not applicable"},
		{"fire=FD30; lock=strike; fire_test_evidence=yes", "held"},
		{"fire=FD30; lock=strike; fire_test_evidence=no", "broken: evidence"},
		{"fire=FD30; lock=strike", "not judged: fire_test_evidence"},
	}},
	"emergency-release-unit": {uk: {
		{held60 + "override=none", "not applicable"},
		{held60 + unit, "held"},
		{held60 + strings.Replace(unit, "override_type=A", "override_type=B", 1), "broken: type"},
		{held60 + strings.Replace(unit, "override_latching=yes", "override_latching=no", 1), "broken: stays released"},
		{held60 + strings.Replace(unit, "override_poles=2", "override_poles=1", 1), "broken: poles"},
		{held60 + strings.Replace(unit, "override_side=escape_side", "override_side=other_side; override_sides=1", 1), "broken: side"},
		{held60 + strings.Replace(unit, "escape_both_ways=no", "escape_both_ways=yes; override_sides=1", 1), "broken: both sides"},
		{held60 + strings.Replace(unit, "escape_both_ways=no", "escape_both_ways=yes; override_sides=2", 1), "held"},
		{held60 + unit + "override_colour=red", "broken: colour"},
		{held60 + strings.Replace(unit, "lock_psu_battery=no", "lock_psu_battery=yes; override_cuts_lock_supply=no", 1), "broken: battery"},
		{held60 + strings.Replace(unit, "override_distance_m=2", "override_distance_m=2.001", 1), "broken: distance"},
		{held60 + strings.Replace(unit, "override_height_mm=1400", "override_height_mm=1601", 1), "broken: height"},
		{held60 + strings.Replace(unit, "override_distance_m=2; override_height_mm=1400;", "", 1), "site: override_distance, override_height"},
		{held60 + strings.Replace(unit, "override_type=A", "", 1), "not judged: override_type"},
		{held60, "not judged: override"},
	}},
	"escape-lock-release": {uk: {
		{"on_escape_route=no; electric_lock=magnet; mechanical_egress=no", "not applicable"},
		{"on_escape_route=yes; electric_lock=strike; mechanical_egress=yes; fail_mode=locked", "not applicable"},
		{held60 + freed, "held"},
		{held60 + strings.Replace(freed, "release_on_fire_alarm=yes", "release_on_fire_alarm=no", 1), "broken: fire alarm"},
		{held60 + strings.Replace(freed, "fail_mode=unlocked", "fail_mode=locked", 1), "broken: power loss"},
		{held60 + strings.Replace(freed, "release_on_system_error=yes", "release_on_system_error=no", 1), "broken: system error"},
		{held60 + strings.Replace(freed, "override=green", "override=none; staff_led_evacuation=no", 1), "broken: emergency release, alarm is the only release"},
		{held60 + strings.Replace(freed, "override=green", "override=none; staff_led_evacuation=yes; risk_assessment=yes; exit_button=no; exit_sensor=none", 1), "broken: release left out by assessment"},
		{held60 + strings.Replace(freed, "override=green", "override=none; staff_led_evacuation=no; exit_button=yes; exit_sensor=pir", 1),
			"broken: emergency release, alarm is the only release, push to exit in its place, exit sensor in its place"},
		{held60 + strings.Replace(freed, "fail_mode=unlocked", "fail_mode=unstated; electric_lock=strike", 1), "not judged: fail"},
		{held60 + strings.Replace(freed, "override=green", "", 1), "not judged: override"},
		{"on_escape_route=yes; electric_lock=magnet", "not judged: mechanical_egress"},
	}},
	"exit-capacity": {us: {
		{"egress=required; serves_ol=160; clear_width=32 in", "not applicable"},
		{"egress=required; serves_ol=161; clear_width=32.2 in", "held"},
		{"egress=required; serves_ol=161; clear_width=32 in; sprinkler=none", "broken: 0.2 in a person"},
		{"egress=required; serves_ol=161; clear_width=32 in", "not judged: sprinkler"},
		{"egress=required; serves_ol=200; clear_width=30 in; sprinkler=13; evac=yes; occ=B", "held"},
		{"egress=required; serves_ol=200; clear_width=30 in; sprinkler=13; evac=yes; occ=H-2", "broken: 0.2 in a person"},
		{"egress=required; serves_ol=200; clear_width=29.9 in", "broken: 0.15 in a person"},
		{"egress=required; clear_width=32 in", "not judged: serves_ol"},
	}},
	"exit-device-swing": {uk: {
		{"device=en179; swing=against", "not applicable"},
		{"device=en1125; swing=with", "held"},
		{"device=en1125; swing=against", "broken: swing"},
		{"device=en1125", "not judged: swing"},
	}},
	"fire-door-closing": {
		us: {
			{"rating=NR; closer=none", "not applicable"},
			{"rating=45; closer=self", "held"},
			{"rating=45; closer=none", "broken: closing"},
			{"rating=45; self_closing=yes", "held"},
			{"rating=45", "not judged: closer"},
			{"closer=none", "not judged: fire_rating"},
		},
		uk: {
			{"fire=NR; self_closing=no", "not applicable"},
			{"fire=FD30; self_closing=yes; closer=self; closer_set_size=3; closer_max_size=4", "held"},
			{"fire=FD30; self_closing=yes; closer=self; closer_set_size=2; closer_max_size=4", "broken: closer size"},
			{"fire=FD30; self_closing=yes; closer=self; closer_max_size=2", "broken: closer range"},
			{"fire=FD30; self_closing=yes; closer=spring_hinge", "held"},
			{"fire=FD30; closer=none; inside_dwelling=no; cupboard_or_duct=no", "broken: closing"},
			{"fire=FD30; closer=none; inside_dwelling=no; cupboard_or_duct=yes; kept_locked=yes", "held"},
			{"fire=FD30; self_closing=yes; closer=self", "site: closer_max_size, closer_set_size"},
			{"fire=FD30; closer=none", "not judged: cupboard_or_duct"},
		},
	},
	"fire-door-latching": {
		us: {
			{"rating=NR; latch=no", "not applicable"},
			{"rating=90; latch=yes; latch_blocker=no", "held"},
			{"rating=90; latch=yes", "site: latch_blocker"},
			{"rating=90; latch=yes; latch_blocker=yes", "broken: blocked latch or closer"},
			{"rating=90; latch=no; lock=electromagnetic", "broken: latch, magnet alone"},
			{"rating=90; latch=no; lock=none", "broken: latch"},
			{"rating=90", "not judged: latch"},
		},
		uk: {
			{"fire=FD30; lock=strike; latch=no", "not applicable"},
			{"fire=FD30; lock=magnet; latch=yes", "held"},
			{"fire=FD30; lock=magnet; latch=no; evidence_without_latch=no; kept_locked=no", "broken: magnet alone"},
			{"fire=FD30; lock=magnet; latch=no; evidence_without_latch=yes; kept_locked=yes", "broken: kept locked"},
			{"fire=FD30; lock=magnet; latch=no; evidence_without_latch=yes; kept_locked=no", "held"},
			{"fire=FD30; lock=magnet", "not judged: latch"},
		},
	},
	"fire-exit-hardware": {us: {
		{"rating=NR; hw=panic", "not applicable"},
		{"rating=90; hw=lever", "not applicable"},
		{"rating=90; hw=fire_exit", "held"},
		{"rating=90; hw=panic", "broken: device"},
		{"rating=90", "not judged: hw"},
	}},
	"free-egress": {
		us: {
			{"egress=none; lock=mechanical; key_egress=yes", "not applicable"},
			{"egress=required; lock=none", "not applicable"},
			{"egress=required; lock=controlled_egress; key_egress=yes", "not applicable"},
			{"egress=required; lock=mechanical; key_egress=no", "held"},
			{"egress=provided; lock=mechanical; key_egress=yes; occ=B; main_exterior=no; use=room", "broken: key"},
			{"egress=required; lock=mechanical; key_egress=yes; occ=B; main_exterior=yes", "held"},
			{"egress=required; lock=mechanical; key_egress=yes; occ=A-2; serves_ol=300; main_exterior=yes", "held"},
			{"egress=required; lock=mechanical; key_egress=yes; occ=A-2; serves_ol=301; use=main_entrance", "broken: key"},
			{"egress=required; lock=mechanical; key_egress=yes; occ=A-3; use=worship; serves_ol=900; main_exterior=yes", "held"},
			{"egress=required; lock=mechanical; key_egress=yes; occ=I-3", "held"},
			{"egress=required; lock=mechanical; key_egress=yes; occ=B", "not judged: main_exterior"},
			{"egress=required; lock=mechanical", "not judged: key_egress"},
			{"egress=required", "not judged: lock"},
		},
		uk: {
			{"on_escape_route=no; keyed_egress=yes", "not applicable"},
			{"on_escape_route=yes; lock=mechanical; keyed_egress=no", "held"},
			{"on_escape_route=yes; lock=mechanical; keyed_egress=yes; lock_used_only_when_empty=no", "broken: key"},
			{"on_escape_route=yes; lock=mechanical; keyed_egress=yes; lock_used_only_when_empty=yes", "held"},
			{held60 + "keyed_egress=no; delay_s=10; public_access=yes; override=green", "broken: delay in public use"},
			{held60 + "keyed_egress=no; delay_s=0; override=none; release_on_fire_alarm=no", "broken: nothing frees the lock"},
			{held60 + "keyed_egress=no; delay_s=0; override=none; release_on_fire_alarm=yes", "held"},
			{"on_escape_route=yes; lock=mechanical", "not judged: key_egress"},
		},
	},
	"hardware-height": {
		us: {
			{"egress=none; hw_h_in=60", "not applicable"},
			{"egress=required; hw_h_in=34", "held"},
			{"egress=required; hw_h_in=48", "held"},
			{"egress=required; hw_h_in=33.99", "broken: height"},
			{"egress=required; hw_h_in=48.01", "broken: height"},
			{"egress=required", "site: hw_height"},
			{"egress=required; hw=lever; phase=new", "site: hw_height"},
			{"egress=required; hw=lever; phase=existing", "not judged: hw_height"},
		},
		uk: {
			{"on_escape_route=yes; device=push_pull; hw_height=600 mm", "not applicable"},
			{"on_escape_route=yes; device=en1125; hw_height=900 mm", "held"},
			{"on_escape_route=yes; device=en1125; hw_height=1101 mm", "broken: exit device height"},
			{"on_escape_route=yes; device=lever; hw_height=1050 mm", "held"},
			{"on_escape_route=yes; device=lever; hw_height=1051 mm", "broken: lever height"},
			{"on_escape_route=yes; device=en179", "site: hw_height"},
			{"on_escape_route=yes; hw_height=700 mm", "not judged: hw"},
			{"on_escape_route=yes; device=lever; phase=existing", "not judged: hw_height"},
		},
	},
	"hardware-release": {us: {
		{"egress=required; lock=electromagnetic; release_set={sensor,button}", "not applicable"},
		{switched + "occ=B; serves_ol=20; hw=lever; hw_switch_direct=yes; listed=UL294", "held"},
		{switched + "occ=A-3; serves_ol=50; hw=panic; hw_switch_direct=yes; listed=UL294", "held"},
		{switched + "occ=A-3; serves_ol=50; hw=lever; hw_switch_direct=no; listed=none", "broken: direct, panic hardware, listing"},
		{switched + "occ=H-1; hw=panic; hw_switch_direct=yes; listed=UL294", "broken: occupancy"},
		{"egress=required; lock=electric_strike; mechanical_egress=no; fail=secure; release_set={hardware_switch}; occ=B; hw_switch_direct=yes; listed=UL294", "broken: power loss"},
		{switched + "occ=B; hw=lever", "not judged: hw_switch_direct, listed"},
		{"egress=required; lock=electromagnetic", "not judged: release_set"},
	}},
	"hinge-grade": {uk: {
		{"fire=NR; hinge_grade=7", "not applicable"},
		{"fire=FD30; hinge_grade=11", "held"},
		{"fire=FD30; hinge_grade=10; building=new", "broken: grade"},
		{"fire=FD30; hinge_grade=10; building=existing", "broken: grade, existing"},
		{"fire=FD30; hinge_grade=10", "not judged: building_age"},
		{"fire=FD30", "site: hinge_grade"},
	}},
	"hold-open": {
		us: {
			{"rating=NR; hold_open=wedge", "not applicable"},
			{"rating=60; hold_open=none", "not applicable"},
			{"rating=60; hold_open=magnetic; ho_release={smoke,power_loss}", "held"},
			{"rating=60; hold_open=magnetic; ho_release={fusible_link}", "broken: smoke"},
			{"rating=60; hold_open=closer; ho_release={smoke}", "broken: power loss"},
			{"rating=60; hold_open=arm; ho_release={smoke}", "broken: no release"},
			{"rating=60; hold_open=magnetic", "not judged: ho_release"},
			{"rating=60", "not judged: hold_open"},
		},
		uk: {
			{"fire=FD30; hold_open=none", "not applicable"},
			{"fire=FD30; hold_open=magnet; ho_release={smoke,manual_switch,power_loss,fire_alarm}; release_time_s=3", "held"},
			{"fire=FD30; hold_open=magnet; ho_release={smoke,power_loss,fire_alarm}; manual_release=yes; release_time_s=3.1", "broken: release time"},
			{"fire=FD30; hold_open=magnet; ho_release={power_loss,fire_alarm}; manual_release=yes; release_time_s=1", "broken: ways of release"},
			{"fire=FD30; hold_open=magnet; ho_release={smoke,power_loss,fire_alarm}; manual_release=no; release_time_s=1", "broken: ways of release, by hand"},
			{"fire=FD30; hold_open=wedge", "broken: no release"},
			{"fire=FD30; hold_open=magnet; ho_release={smoke,manual_switch,power_loss,fire_alarm}", "site: release_time"},
			{"fire=FD30; hold_open=magnet; manual_release=yes", "not judged: ho_release"},
		},
	},
	"inactive-leaf-bolts": {us: {
		{"egress=required; leaves=1; inactive_bolt=manual", "not applicable"},
		{"egress=required; leaves=2; inactive_bolt=constant_latching", "not applicable"},
		{bolted + "occ=B; serves_ol=49; use=room; inactive_hw=none; rating=NR", "held"},
		{bolted + "occ=B; serves_ol=50; use=room; inactive_hw=none; rating=NR; sprinkler=none", "broken: manual bolts"},
		{bolted + "occ=B; serves_ol=50; use=room; inactive_hw=none; rating=NR; sprinkler=13", "held"},
		{bolted + "occ=A-3; serves_ol=20; use=room; inactive_hw=none; rating=NR", "broken: manual bolts"},
		{bolted + "occ=A-3; serves_ol=20; use=storage; inactive_hw=lever; rating=90", "held"},
		{bolted + "occ=B; serves_ol=10; use=room; inactive_hw=lever; rating=NR", "broken: hardware on the bolted leaf"},
		{bolted + "occ=B; serves_ol=10; use=room; inactive_hw=none; rating=45", "broken: manual bolts on a fire door"},
		{"egress=required; leaves=2; inactive_bolt=automatic; inactive_hw=lever", "broken: hardware on the bolted leaf"},
		{bolted + "occ=B; use=room; inactive_hw=none; rating=NR", "not judged: serves_ol"},
	}},
	"lock-across-exit-device": {uk: {
		{"lock=magnet; device=lever", "not applicable"},
		{"lock=magnet; device=en1125; en13637_system=yes", "held"},
		{"lock=magnet; device=en1125; en13637_system=no", "broken: magnet across the device"},
		{"lock=magnet; device=en179; en13637_system=no", "broken: magnet across the device"},
		{"lock=magnet; device=en1125", "not judged: en13637_system"},
	}},
	"locked-public-exit": {uk: {
		{"on_escape_route=yes; lock=mechanical", "not applicable"},
		{held60 + "public_access=yes; persons=60; licensed=no", "held"},
		{held60 + "public_access=yes; persons=61", "broken: public"},
		{held60 + "public_access=yes; persons=10; licensed=yes", "broken: public"},
		{held60 + "persons=61", "not judged: public_access"},
	}},
	"one-motion": {
		us: {
			{"egress=none; motions=2", "not applicable"},
			{"egress=required; lock=mechanical; motions=1", "held"},
			{"egress=required; lock=mechanical; motions=2; use=room", "broken: motions"},
			{"egress=required; lock=mechanical; motions=2; use=unit_entry; occ=R-2; serves_ol=10", "held"},
			{"egress=required; lock=mechanical; motions=2; use=unit_entry; occ=R-2; serves_ol=11", "broken: motions"},
			{"egress=required; lock=mechanical; motions=2", "not judged: use"},
			{"egress=required; lock=mechanical", "not judged: motions"},
		},
		uk: {
			{"on_escape_route=no; egress_mechanisms=2", "not applicable"},
			{"on_escape_route=yes; egress_mechanisms=1", "held"},
			{"on_escape_route=yes; egress_mechanisms=2", "broken: mechanisms"},
			{"on_escape_route=yes", "not judged: motions"},
		},
	},
	"only-fastening": {uk: {
		{"on_escape_route=yes; lock=magnet; sole_fastening=yes", "not applicable"},
		{"on_escape_route=yes; lock=strike; sole_fastening=no", "held"},
		{"on_escape_route=yes; lock=strike; sole_fastening=yes; mechanical_egress=yes", "held"},
		{"on_escape_route=yes; lock=strike; sole_fastening=yes; mechanical_egress=no", "broken: only fastening"},
		{"on_escape_route=yes; lock=strike; mechanical_egress=no", "not judged: sole_fastening"},
	}},
	"opening-force": {
		us: {
			{"egress=none; open_full_lbf=40", "not applicable"},
			{"egress=required; open_start_lbf=30; open_full_lbf=15; rating=90", "held"},
			{"egress=required; open_start_lbf=30.1; open_full_lbf=15.1; rating=90", "broken: start, open"},
			{"egress=required; open_start_lbf=5; open_full_lbf=5; rating=NR; interior=yes", "held"},
			{"egress=required; open_start_lbf=5; open_full_lbf=6; rating=NR; interior=yes; operation=manual", "broken: interior"},
			{"egress=required; open_start_lbf=5; open_full_lbf=6; rating=NR; interior=yes", "not judged: operation"},
			{"egress=required", "site: open_start_force, open_full_force"},
		},
		uk: {
			{"accessible=no; force_0_30_N=60", "not applicable"},
			{"accessible=yes; force_0_30_N=30; force_30_60_N=22.5", "held"},
			{"accessible=yes; operation=manual; force_0_30_N=30.1; force_30_60_N=22.6", "broken: 0 to 30 degrees, 30 to 60 degrees"},
			{"accessible=yes; operation=powered; force_0_30_N=99; force_30_60_N=99", "held"},
			{"accessible=yes", "site: open_start_force, open_full_force"},
			{"accessible=yes; force_0_30_N=31; force_30_60_N=20", "not judged: operation"},
		},
	},
	"opening-kind": {
		us: {
			{"width=3-0; door_material=STL", "not applicable"},
			{"width=3-0; opening_kind=swinging", "not applicable"},
			{"width=3-6; rating=90", "not judged: opening_kind"},
		},
		uk: {
			{"width=926; hardware_set=A1", "not applicable"},
			{"width=926; fire=FD60", "not judged: opening_kind"},
		},
	},
	"pair-closing-order": {uk: {
		{"fire=FD60; leaves=1; rebated_meeting=yes", "not applicable"},
		{"fire=FD60; leaves=2; rebated_meeting=yes; coordinator=yes", "held"},
		{"fire=FD60; leaves=2; rebated_meeting=yes; coordinator=no", "broken: coordinator"},
		{"fire=FD60; leaves=2", "not judged: rebated_meeting"},
	}},
	"panic-hardware": {
		us: {
			{"egress=none; occ=A-3; serves_ol=90; latch=yes; hw=lever", "not applicable"},
			{"egress=required; lock=none; latch=no; occ=A-3; serves_ol=500; hw=push_pull", "not applicable"},
			{latched + "occ=A-3; serves_ol=49; hw=lever; use=room", "held"},
			{latched + "occ=A-3; serves_ol=50; hw=lever; use=room", "broken: assembly or education"},
			{latched + "occ=E; serves_ol=50; hw=lever; use=room", "broken: assembly or education"},
			{latched + "occ=B; serves_ol=500; hw=lever; use=room", "held"},
			{latched + "occ=H-3; serves_ol=1; hw=lever; use=room", "broken: high hazard"},
			{latched + "occ=A-3; serves_ol=50; hw=panic; use=room", "held"},
			{latched + "occ=A-3; serves_ol=50; hw=touch_bar; use=room", "broken: assembly or education"},
			{"egress=required; lock=mechanical; latch=no; occ=A-3; serves_ol=300; key_egress=yes; main_exterior=yes; hw=push_pull; use=room", "held"},
			{"egress=required; lock=mechanical; latch=no; occ=A-3; serves_ol=301; key_egress=yes; main_exterior=yes; hw=push_pull; use=room", "broken: assembly or education"},
			{latched + "occ=B; use=electrical; amps=800; overcurrent=yes; dist_ft=24; hw=lever", "broken: electrical room"},
			{latched + "occ=B; use=electrical; amps=799; overcurrent=yes; dist_ft=24; hw=lever", "held"},
			{latched + "occ=B; use=electrical; amps=800; overcurrent=yes; dist_ft=25; hw=lever", "held"},
			{latched + "occ=B; use=battery_room; hw=lever", "broken: vault, battery or data room"},
			{latched + "occ=A-3; hw=lever; use=room", "not judged: serves_ol"},
			{latched + "hw=lever", "not judged: occ, use"},
		},
		uk: {
			{"on_escape_route=yes; lock=none; fastened=no; persons=90; public_unfamiliar=yes; device=lever", "not applicable"},
			{fastenedUK + "persons=60; public_unfamiliar=yes; trained_users=no; device=lever", "held"},
			{fastenedUK + "persons=61; public_unfamiliar=yes; premises=office; device=lever", "broken: public"},
			{fastenedUK + "persons=61; public_unfamiliar=no; premises=shop_commercial; device=lever", "broken: assembly or shop"},
			{fastenedUK + "persons=61; public_unfamiliar=yes; premises=office; device=en1125", "held"},
			{fastenedUK + "persons=60; trained_users=yes; device=en179", "held"},
			{fastenedUK + "persons=60; trained_users=yes; device=push_pull", "broken: trained staff"},
			{fastenedUK + "persons=61; public_unfamiliar=yes; premises=office", "not judged: hw"},
		},
	},
	"public-entrance-width": {uk: {
		{"external=no; public_entrance=yes; clear_w_mm=700", "not applicable"},
		{"external=yes; public_entrance=yes; building=new; clear_w_mm=1000", "held"},
		{"external=yes; public_entrance=yes; building=new; clear_w_mm=999", "broken: public entrance"},
		{"external=yes; public_entrance=yes; building=existing; clear_w_mm=775", "held"},
		{"external=yes; public_entrance=yes; building=existing; clear_w_mm=774", "broken: public entrance"},
		{"external=yes; public_entrance=yes; clear_w_mm=900", "not judged: building_age"},
	}},
	"sensor-release": {us: {
		{"egress=required; lock=electric_strike; mechanical_egress=yes", "not applicable"},
		{"egress=required; lock=electrified_panic", "not applicable"},
		{"egress=required; lock=electromagnetic; release_set={hardware_switch}", "not applicable"},
		{sensed + "occ=B", "held"},
		{sensed + "occ=H-3", "broken: occupancy"},
		{strings.Replace(sensed, "sensor,", "", 1) + "occ=B", "broken: arrangement"},
		{strings.Replace(sensed, "button,", "", 1) + "occ=B", "broken: button"},
		{strings.Replace(sensed, "btn_h_in=44", "btn_h_in=40", 1) + "occ=B", "held"},
		{strings.Replace(sensed, "btn_h_in=44", "btn_h_in=48", 1) + "occ=B", "held"},
		{strings.Replace(sensed, "btn_h_in=44", "btn_h_in=39.9", 1) + "occ=B", "broken: button height"},
		{strings.Replace(sensed, "btn_h_in=44", "btn_h_in=48.1", 1) + "occ=B", "broken: button height"},
		{strings.Replace(sensed, "btn_h_in=44", "", 1) + "occ=B", "site: button_height"},
		{strings.Replace(sensed, "btn_d_ft=5", "btn_d_ft=5.01", 1) + "occ=B", "broken: button distance"},
		{strings.Replace(sensed, "btn_unlock_s=30", "btn_unlock_s=29", 1) + "occ=B", "broken: button time"},
		{strings.Replace(sensed, "btn_direct=yes", "btn_direct=no", 1) + "occ=B", "broken: button wiring"},
		{strings.Replace(sensed, "btn_sign=yes", "btn_sign=no", 1) + "occ=B", "broken: button sign"},
		{strings.Replace(sensed, "fire_alarm,", "", 1) + "occ=B", "broken: fire alarm"},
		{strings.Replace(strings.Replace(sensed, "fire_alarm,", "", 1), "fire_alarm=yes", "fire_alarm=no", 1) + "occ=B", "held"},
		{strings.Replace(sensed, "sprinkler,", "", 1) + "occ=B", "broken: sprinklers or detection through the alarm"},
		{strings.Replace(strings.Replace(sensed, "fire_alarm,sprinkler,", "", 1), "fire_alarm=yes", "fire_alarm=no", 1) + "occ=B", "broken: sprinklers or detection"},
		{strings.Replace(sensed, "listed=UL294", "listed=UL1034", 1) + "occ=B", "broken: listing"},
		{strings.Replace(sensed, "lock=electromagnetic", "lock=electric_strike; mechanical_egress=no; fail=secure", 1) + "occ=B", "broken: power loss"},
		{strings.Replace(sensed, "listed=UL294", "", 1) + "occ=B", "not judged: listed"},
		{"lock=electromagnetic", "not judged: egress"},
	}},
	"smoke-leakage": {
		us: {
			{"rating=90; wall=exit_stair; smoke_tested=no", "not applicable"},
			{"rating=20; wall=corridor; smoke_tested=yes", "held"},
			{"rating=20; wall=corridor; smoke_tested=no", "broken: leakage"},
			{"rating=20; wall=corridor", "not judged: smoke_tested"},
			{"rating=20", "not judged: wall"},
		},
		uk: {
			{"fire=FD30; smoke_tested=no", "not applicable"},
			{"fire=FD30S; smoke_tested=yes", "held"},
			{"fire=FD30S; smoke_tested=no", "broken: leakage"},
			{"fire=FD30S", "not judged: smoke_tested"},
			{"fire=30", "not judged: smoke"},
		},
	},
	"stair-reentry": {us: {
		{"use=stair_discharge; stair_side_locked=yes; lock=mechanical", "not applicable"},
		{"use=stair; stair_side_locked=no", "not applicable"},
		{"use=stair; stair_side_locked=yes; lock=electrified_lock; fail=safe; remote_release=main_entrance; highrise=no", "held"},
		{"use=stair; stair_side_locked=yes; lock=electrified_lock; fail=safe; remote_release=main_entrance; highrise=yes", "broken: high-rise release"},
		{"use=stair; stair_side_locked=yes; lock=electrified_lock; fail=secure; remote_release=none", "broken: fail state, remote release"},
		{"use=stair; stair_side_locked=yes; lock=electric_strike; fail=safe; remote_release=fire_command_center", "broken: strike"},
		{"use=stair; stair_side_locked=yes; lock=mechanical", "broken: mechanical lock"},
		{"use=stair; stair_side_locked=yes; lock=electrified_lock; fail=safe", "not judged: remote_release, highrise"},
		{"use=stair", "not judged: stair_side_locked"},
	}},
	"strike-fail-state": {
		us: {
			{"rating=NR; lock=electric_strike; fail=safe", "not applicable"},
			{"rating=90; lock=electrified_lock; fail=safe", "not applicable"},
			{"rating=90; lock=electric_strike; fail=secure", "held"},
			{"rating=90; lock=electric_strike; fail=safe", "broken: fail safe"},
			{"rating=90; lock=electric_strike; fail=na", "not judged: fail"},
		},
		uk: {
			{"fire=FD30; lock=magnet", "not applicable"},
			{"fire=FD30; lock=strike; fail=locked", "held"},
			{"fire=FD30; lock=strike; fail=unlocked; latch_released_on_fail=yes; evidence_without_latch=no", "broken: unlatched"},
			{"fire=FD30; lock=strike; fail=unlocked; latch_released_on_fail=yes; evidence_without_latch=yes", "held"},
			{"fire=NR; lock=strike; fail=unstated", "broken: not stated"},
			{"fire=FD30; lock=strike", "not judged: fail"},
		},
	},
	"swing-direction": {
		us: {
			{"egress=required; occ=B; serves_ol=49; swing=against", "not applicable"},
			{"egress=required; occ=B; serves_ol=50; swing=against", "broken: load"},
			{"egress=required; occ=B; serves_ol=50; swing=with", "held"},
			{"egress=required; occ=B; serves_ol=50; swing=both", "held"},
			{"egress=required; occ=H-2; serves_ol=1; swing=against", "broken: load"},
			{"egress=required; occ=B; swing=against", "not judged: serves_ol"},
		},
		uk: {
			{"on_escape_route=no; swing=against", "not applicable"},
			{"on_escape_route=yes; swing=with", "held"},
			{"on_escape_route=yes; persons=60; swing=against; high_fire_risk=no", "broken: law"},
			{"on_escape_route=yes; persons=61; swing=against; high_fire_risk=no", "broken: more than 60, law"},
			{"on_escape_route=yes; persons=10; swing=against; high_fire_risk=yes", "broken: law, high fire risk"},
			{"on_escape_route=yes; swing=against; high_fire_risk=no", "broken: law; needs serves_ol"},
			{"on_escape_route=yes; persons=80", "not judged: swing"},
		},
	},
	"wall-rating": {us: {
		{"wall=none; rating=NR", "not applicable"},
		{"wall=exit_stair; wall_h=2; rating=90", "held"},
		{"wall=exit_stair; wall_h=2; rating=60", "broken: fd-rate-2h"},
		{"wall=exit_stair; wall_h=1; rating=45", "broken: fd-rate-1h-exit"},
		{"wall=corridor; wall_h=1; rating=20", "held"},
		{"wall=corridor; wall_h=0.5; rating=NR", "broken: fd-rate-corridor"},
		{"wall=fire_wall; wall_h=3; rating=90", "broken: fd-rate-3h"},
		{"wall=fire_wall; wall_h=4; rating=180", "held"},
		{"wall=fire_wall; wall_h=4; rating=90", "broken: fd-rate-4h"},
		{"wall=fire_barrier; wall_h=1.5; rating=60", "broken: fd-rate-1h5"},
		{"wall=fire_barrier_other; wall_h=1; rating=20", "broken: fd-rate-1h"},
		{"wall=fire_partition_other; wall_h=1; rating=20", "broken: fd-rate-part1"},
		{"wall=fire_partition_other; wall_h=0.5; rating=NR", "broken: fd-rate-part05"},
		{"wall=smoke_barrier; wall_h=1; rating=NR", "broken: fd-rate-smoke"},
		{"wall=exterior; wall_h=2; rating=60", "broken: fd-rate-ext32"},
		{"wall=exterior; wall_h=1; rating=20", "broken: fd-rate-ext1"},
		{"wall=corridor; wall_h=1", "not judged: fire_rating"},
		{"wall=corridor", "not judged: wall_h"},
		{"rating=90", "not judged: wall"},
	}},
}

// Doors that several cases begin with.
const (
	held60     = "on_escape_route=yes; electric_lock=magnet; mechanical_egress=no; "
	freed      = "release_on_fire_alarm=yes; fail_mode=unlocked; release_on_system_error=yes; override=green; "
	unit       = "override=green; override_type=A; override_latching=yes; override_poles=2; override_side=escape_side; escape_both_ways=no; lock_psu_battery=no; override_distance_m=2; override_height_mm=1400; "
	delayedUK  = "on_escape_route=yes; electric_lock=magnet; delay_s=15; risk_assessment=yes; authority_agreed=yes; release_on_fire_alarm=yes; at_foot_of_stair=no; "
	fastenedUK = "on_escape_route=yes; lock=mechanical; "
	latched    = "egress=required; latch=yes; "
	bolted     = "egress=required; leaves=2; inactive_bolt=manual; "
	switched   = "egress=required; lock=electromagnetic; release_set={hardware_switch,power_loss}; "
	sensed     = "egress=required; lock=electromagnetic; release_set={sensor,button,fire_alarm,sprinkler,power_loss}; btn_h_in=44; btn_d_ft=5; btn_unlock_s=30; btn_direct=yes; btn_sign=yes; fire_alarm=yes; sprinkler=13; detection=none; listed=UL294; "
	delayed    = "lock=delayed_egress; sprinkler=13; release_set={sprinkler,smoke,power_loss}; rearm=manual; de_in_path=1; sign=yes; sign_dist_in=6; emlight=yes; listed=UL294; "
	controlled = "lock=controlled_egress; fail=safe; sprinkler=13; release_set={sprinkler,smoke,power_loss,remote}; staff_keys=yes; in_plan=yes; ce_in_path=1; emlight=yes; listed=UL294; "
)

// summary is a judgement in the words of a stateCase.
func summary(j Judgement) string {
	list := func(ids []doorsched.FieldID) string {
		var names []string
		for _, id := range ids {
			names = append(names, id.String())
		}
		return strings.Join(names, ", ")
	}
	switch j.State {
	case Broken:
		var items []string
		for _, f := range j.Faults {
			items = append(items, f.Item)
		}
		s := "broken: " + strings.Join(items, ", ")
		if len(j.Needs) > 0 {
			s += "; needs " + list(j.Needs)
		}
		return s
	case NotJudged:
		if j.OnSite {
			return "site: " + list(j.Needs)
		}
		return "not judged: " + list(j.Needs)
	}
	return j.State.String()
}

func TestStates(t *testing.T) {
	for _, r := range allRules {
		for e := range r.Cite {
			seen := map[string]bool{}
			for _, c := range states[r.Slug][e] {
				j := r.Judge(Case{door(t, c.inputs), e})
				if d := cmp.Diff(c.want, summary(j)); d != "" {
					t.Errorf("%s on %s: %s:\n%s", r.Slug, e, c.inputs, d)
				}
				if got, want := Worst(door(t, c.inputs), e), JudgeDoor(door(t, c.inputs), e).Verdict; got != want {
					t.Errorf("%s: Worst = %v, JudgeDoor = %v", c.inputs, got, want)
				}
				seen[strings.SplitN(strings.SplitN(c.want, ":", 2)[0], ";", 2)[0]] = true
				for _, f := range j.Faults {
					checkFault(t, r, e, c.inputs, f)
				}
			}
			want := []string{"held", "broken", "not judged", "not applicable"}
			if r == openingKind {
				want = want[2:]
			}
			for _, s := range want {
				if !seen[s] {
					t.Errorf("%s on %s: no case %q", r.Slug, e, s)
				}
			}
		}
	}
}

// checkFault holds what every finding must carry.
func checkFault(t *testing.T, r *Rule, e doorsched.Edition, inputs string, f Fault) {
	t.Helper()
	say := r.Say(Case{door(t, inputs), e}, f)
	for _, word := range []string{"compliant", "proven", "illegal", "%!", "  "} {
		if strings.Contains(say, word) {
			t.Errorf("%s: message says %q: %s", r.Slug, word, say)
		}
	}
	// England: law, guidance, standard and practice are told apart.
	words := []string{"not follow", "as law", "ractice", "does not say"}
	if e == uk && max(f.Severity, r.Severity) == doorsched.Conflict && !slices.ContainsFunc(words, func(w string) bool { return strings.Contains(say, w) }) {
		t.Errorf("%s: %s: the message does not say what is not followed: %s", r.Slug, f.Item, say)
	}
	if f.Value.IsZero() || f.Limit.IsZero() || len(f.Fields) == 0 || !strings.HasSuffix(say, ".") || len(say) < 40 {
		t.Errorf("%s: %s: value %v, limit %v, fields %v, message %q", r.Slug, f.Item, f.Value, f.Limit, f.Fields, say)
	}
}
