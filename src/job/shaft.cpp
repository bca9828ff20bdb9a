#include "job/job_reading.h"

#include <algorithm>

namespace lobewright {
namespace {

/// Whether a [[lobe]] of the file has that name; lobes are read after the shaft.
bool names_a_lobe(const Node& root, const std::string& name) {
    const Node* lobes = root.find("lobe");
    if (lobes == nullptr) return false;
    return std::any_of(lobes->members.begin(), lobes->members.end(), [&](const Node& lobe) {
        const Node* own = lobe.find("name");
        return own != nullptr && own->kind == Node::Kind::string && own->text == name;
    });
}

/// From the datum, or from the nose of a lobe.
void read_direction(JobTable& item, Hole& hole) {
    const auto at = item.angle<ShaftAngle>("at", any_direction);
    const auto from_nose = item.angle<ShaftAngle>("from_nose", any_direction);
    const auto lobe = item.string("lobe");
    hole.lobe = lobe.value_or("");
    hole.at = at.value_or(from_nose.value_or(ShaftAngle{}));
    const bool by_lobe = item.has("lobe") || item.has("from_nose");
    if (item.has("at") && by_lobe)
        item.complain("at", "excluded-key", "the hole has both 'at' and a lobe's nose to count from",
                      "give 'at', or lobe and from_nose");
    if (item.has("at")) return;
    if (!by_lobe) return item.missing("at", "give it, or lobe and from_nose to count from a lobe's nose");
    if (!item.has("lobe")) return item.missing("lobe", "name the lobe whose nose from_nose counts from");
    if (!item.has("from_nose")) item.missing("from_nose", "say how far from the lobe's nose");
    if (lobe && !names_a_lobe(item.reading().root, hole.lobe))
        item.complain("lobe", "unknown-lobe", "there is no lobe '" + hole.lobe + "'", "name a [[lobe]]");
}

void read_hole(JobTable& item, Shaft& shaft) {
    Hole hole;
    hole.z = item.required_length("z", any_length);
    hole.diameter = item.required_length("diameter", positive_length);
    read_direction(item, hole);
    if (shaft.length && (hole.z < 0.0 || hole.z > *shaft.length))
        item.complain("z", "beyond-end", "the hole does not lie on the shaft",
                      "give a place from 0 to the shaft's length");
    shaft.holes.push_back(hole);
}

/// In the order of ShaftMaterial.
const std::vector<std::string> shaft_materials = {"soft-steel", "tempered-steel", "hardened-steel",
                                                  "cast-iron"};

}  // namespace

void read_shaft(JobTable& file) {
    const Node* node = file.table("shaft");
    if (!file.has("shaft")) file.missing("shaft", "add [shaft] with turns = \"ccw\" or \"cw\"");
    if (node == nullptr) return;
    JobTable table(*node, "shaft", file.reading());
    Shaft& shaft = file.reading().job.shaft;
    shaft.turns = table.required_choice<Sense>("turns", sense_words).value_or(Sense::ccw);
    shaft.blank_diameter = table.length("blank_diameter", positive_length);
    shaft.blank_measured = table.length("blank_measured", positive_length);
    shaft.length = table.length("length", positive_length);
    shaft.material = table.choose<ShaftMaterial>("material", shaft_materials);
    read_list(table, "journal", [&](JobTable& item) {
        Journal journal;
        journal.z = item.required_length("z", any_length);
        journal.width = item.required_length("width", positive_length);
        journal.diameter = item.required_length("diameter", positive_length);
        shaft.journals.push_back(journal);
    });
    read_list(table, "hole", [&](JobTable& item) { read_hole(item, shaft); });
    table.finish();
}

}  // namespace lobewright
