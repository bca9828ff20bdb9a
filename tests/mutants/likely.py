"""Which files of tests are the likeliest to notice a change: by the room of the source, or by one of its files."""

LIKELY = {
    "profile/law": "law motion segments sides envelope",
    "profile/motion": "motion level bounds",
    "profile/follower": "follower envelope contour extremes bounds",
    "profile/fullest": "fullest fullest_followers",
    "profile/shape": "lobe refusal arcs card cure sides fullest",
    "profile/shape/arcs": "arcs",
    "profile/shape/arcs_shape": "arcs refusal card",
    "profile/shape/card_angles": "card",
    "profile/shape/fullest_angles": "fullest card",
    "profile/readings": "table_readings table_spline reading_limits",
    "profile/spline": "table_spline quintic_spline banded_least_squares table_readings bounds",
    "profile/timing": "timing valve_train card",
    "profile/judge": "soundness contact_load hertz golden",
    "toolpath": "plan refusals cutting_data order roughing",
    "toolpath/lobe_planner": "plan roughing order helix axial_steps",
    "toolpath/section": "section radial_function reach refusals plan",
    "toolpath/section/axial_steps": "plan refusals roughing",
    "toolpath/section/dished_end": "dished_end",
    "toolpath/tunnel": "tunnel fewest_blocks grid_path plan",
    "toolpath/path": "path_builder leads plan block_timing cutting_data roughing helix",
    "toolpath/path/unwinding": "unwinding",
    "toolpath/path/detour": "linear_floor",
    "toolpath/path/knot_chain": "knot_chain linear_floor",
    "toolpath/path/chip": "cutting_data plan",
    "toolpath/roughing": "roughing standing_lobes plan",
    "post": "program_writer dialect begin_and_end examples accepted",
    "post/dialect": "dialect program_writer posts",
    "proof": "prove findings setup_findings golden_verdicts",
    "proof/reader": "reader bad_programs unsafe_programs outside_reading rotary_travel",
    "proof/section": "moving_section cutter_section hollow_end plane_sweep",
    "proof/sweep": "plane_sweep moves_along_shaft prove findings helix_proof",
    "proof/judge": "findings standing_stock unsafe_programs surface_feed prove golden_verdicts helix_proof",
    "proof/judge/taken_stock": "taken_stock findings",
    "proof/judge/limit_checks": "findings unsafe_programs rotary_travel setup_findings",
    "proof/judge/helix_ridges": "helix_proof",
    "hand": "solved_lobes sheet",
    "hand/fixture": "offset_fixture noses index_wheel fixture_choice angles_on_marks stop_rounds measured_bar tangency allowance",
    "hand/dividing": "index_grid facets",
    "hand/outline": "outline follower_on_outline tangency ridges noses facets",
    "hand/outline/filed_nose": "noses",
    "hand/finish": "finish_remarks deviations ridges offset_fixture facets",
    "hand/sheet": "sheet hand_text golden measured_bar",
    "hand/wording": "hand_text sheet offset_fixture facets",
    "hand/along_shaft": "along_shaft",
}


def likely_files(source):
    """Names of files of tests, without _test, the likeliest first; source: a file below src/."""
    stem = source.removeprefix("src/").removesuffix(".cpp")
    parts = stem.split("/")
    names = [parts[-1]]
    for end in range(len(parts), 0, -1):
        names += LIKELY.get("/".join(parts[:end]), "").split()
    return list(dict.fromkeys(names))
