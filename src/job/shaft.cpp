#include "job/job_reading.h"

namespace lobewright {

void read_shaft(JobTable& file) {
    const Node* node = file.table("shaft");
    if (!file.has("shaft")) file.missing("shaft", "add [shaft] with turns = \"ccw\" or \"cw\"");
    if (node == nullptr) return;
    JobTable table(*node, "shaft", file.reading());
    Shaft& shaft = file.reading().job.shaft;
    shaft.turns = table.required_choice<Sense>("turns", sense_words).value_or(Sense::ccw);
    shaft.blank_diameter = table.length("blank_diameter", positive_length);
    shaft.length = table.length("length", positive_length);
    read_list(table, "journal", [&](JobTable& item) {
        Journal journal;
        journal.z = item.required_length("z", any_length);
        journal.width = item.required_length("width", positive_length);
        journal.diameter = item.required_length("diameter", positive_length);
        shaft.journals.push_back(journal);
    });
    table.finish();
}

}  // namespace lobewright
