package demo

// Bundles of fields that several doors share. Each is a list for fill; a door's
// own list comes after them and has the last word. Region's bundles start with
// us or uk, the others hold for both.
const (
	// what is true of the building, and of doors that are new work in it
	building   = "fire_alarm=yes; sprinkler=13; detection=full; phase=new; opening_kind=swinging;"
	ukBuilding = "premises=assembly_recreation; building_age=new; staff_led_evacuation=no;"

	inside  = "exterior=no; exposure=indoor; main_exterior=no; final_exit=no; public_entrance=no;"
	outside = "exterior=yes; exposure=salt; main_exterior=no; final_exit=yes; public_entrance=no;"

	// leaving through the door takes nothing but the hardware on it
	leave = "egress=required; swing=with; key_egress=no; special_knowledge=no; motions=1; operation=manual_swing; dead_bolt=no; delay=0;" +
		"accessible=yes; stair_side_locked=no; lock_used_only_when_empty=no; escape_both_ways=no; hold_open=none; latch_blocker=no;" +
		"encloses_protected_stair=no; escape_stair=no; override=none;"
	staff   = "public_unfamiliar=no; public_access=no; trained_users=yes;"
	public  = "public_unfamiliar=yes; public_access=yes; trained_users=no;"
	unrated = "fire_rating=NR; smoke=no; wall=none;"

	lever    = "hw=lever; mechanical_egress=yes; latch=yes; latch_type=mortise; fastened=yes;"
	pushPull = "hw=push_pull; mechanical_egress=yes; latch=no; latch_type=none; fastened=no;"
	panicBar = "hw=panic; mechanical_egress=yes; latch=yes; latch_type=rim; fastened=yes;"
	usHeight = "hw_height=40 in;"
	ukHeight = "hw_height=1000 mm; approach=straight;"
	usBar    = "hw_height=40 in; bar_width=30 in;"

	mechanical = "lock=mechanical; access_controlled=no; reader=none;"
	unlocked   = "lock=none; access_controlled=no; reader=none; sole_fastening=no;"
	reader     = "access_controlled=yes; reader=card; door_contact=yes; controller_place=closet; lock_volts=24;"
	strike     = reader + "lock=electric_strike; fail=secure; lock_amps=0.3; lock_inrush=0.3; release_set=none; sole_fastening=no; latch_released_on_fail=no; listed=UL294;"
	lockset    = reader + "lock=electrified_lock; fail=secure; lock_amps=0.5; lock_inrush=0.5; release_set=none; sole_fastening=no; listed=UL294;"
	motorPanic = reader + "lock=electrified_panic; fail=secure; lock_amps=0.25; lock_inrush=0.8; release_set=none; sole_fastening=no; listed=UL294;"
	magnet     = reader + "lock=electromagnetic; fail=safe; lock_amps=0.5; lock_inrush=0.5; holding_force=5300; mechanical_egress=no; sole_fastening=yes; listed=UL294;"
	// The two arrangements of the IBC for a magnetic lock, each whole.
	usSensor = "release=sensor; release_set={sensor,button,fire_alarm,sprinkler,smoke,power_loss}; exit_sensor=pir; button_height=42 in; button_distance=2 ft; button_unlock=30; button_direct=yes; button_sign=yes;"
	usSwitch = "release=hardware_switch; release_set={hardware_switch,power_loss}; hw_switch_direct=yes;"
	// An English magnetic lock: alarm, power loss, override.
	ukRelease = "release_set={button,fire_alarm,power_loss,system_error,emergency_release}; override=green; override_type=A; override_latching=yes; override_poles=2; override_sides=1; override_side=escape_side;" +
		"override_colour=green; override_height=1400 mm; override_distance=0.5 m; actuation_category=A; lock_psu_battery=yes; override_cuts_lock_supply=yes; en13637_system=no;"
	ukGrade = "grade=2;"

	closer   = "closer=self; self_closing=yes;"
	noCloser = "closer=none; self_closing=no;"
	usFire   = closer + "smoke_tested=yes;"
	ukFire   = closer + "smoke_tested=yes; closer_set_size=3; closer_max_size=4; hinge_grade=13; hinge_count=3; fire_test_evidence=yes; drop_seal=yes;"
	ukHinge  = "hinge_grade=13; hinge_count=3;"
	ukCloser = closer + ukHinge + "closer_set_size=4; closer_max_size=4;"

	usStair    = usFire + "fire_rating=60 MIN; wall=exit_stair; wall_h=1;"
	ukStair    = ukFire + "fire_rating=FD60S; encloses_protected_stair=yes; escape_stair=yes;"
	usCorridor = usFire + "fire_rating=20 MIN; wall=corridor; wall_h=1;"
	ukFD30S    = ukFire + "fire_rating=FD30S;"
	usBarrier  = usFire + "fire_rating=45 MIN; wall=fire_barrier_other; wall_h=1;"

	usWood  = "door_type=F; door_material=SCWD; door_finish=Stain; thickness=1.75 in; frame_type=F1; frame_material=HM; frame_finish=Paint;"
	ukWood  = "door_type=F; door_material=Solid timber; door_finish=Lacquered; thickness=44 mm; frame_type=F1; frame_material=Timber; frame_finish=Painted;"
	ukWood6 = "door_type=F; door_material=Solid timber; door_finish=Lacquered; thickness=54 mm; frame_type=F1; frame_material=Timber; frame_finish=Painted;"
	usSteel = "door_type=F; door_material=HM; door_finish=Paint; thickness=1.75 in; frame_type=F2; frame_material=HM; frame_finish=Paint;"
	ukSteel = "door_type=F; door_material=Steel; door_finish=Powder coat; thickness=45 mm; frame_type=F2; frame_material=Steel; frame_finish=Powder coat;"
	usQuay  = "door_type=FG; door_material=HM; door_finish=Galv. + epoxy; thickness=1.75 in; frame_type=F3; frame_material=HM; frame_finish=Galv. + epoxy;"
	ukQuay  = "door_type=FG; door_material=Steel; door_finish=Galv. + epoxy; thickness=45 mm; frame_type=F3; frame_material=Steel; frame_finish=Galv. + epoxy;"
	usGlass = "door_type=G; door_material=ALUM; door_finish=Anodized; thickness=1.75 in; glazing=GL-1; frame_type=F4; frame_material=ALUM; frame_finish=Anodized;"
	ukGlass = "door_type=G; door_material=Aluminium; door_finish=Anodised; thickness=45 mm; glazing=GL-1; frame_type=F4; frame_material=Aluminium; frame_finish=Anodised;"
)
