#include "cli/option_rows.h"

#include <utility>

namespace lobewright::cli {

OptionRow toggle(std::string name, std::string says, bool Options::*field, char letter) {
    return {letter, std::move(name), "", std::move(says), field, Value::nothing, {}};
}
OptionRow valued(std::string name, std::string value, std::string says, std::string Options::*field,
                 Value kind, std::vector<std::string> words, char letter) {
    return {letter, std::move(name), std::move(value), std::move(says), field, kind, std::move(words)};
}

OptionRow lobes_option() {
    return {
        '\0',
        "lobe",
        "NAME",
        "this lobe alone, and more where it is given again; the others stay as bar, and must not be touched",
        &Options::lobes,
        Value::nothing,
        {}};
}
OptionRow operation_option() {
    return valued("operation", "NAME", "one of the job's operations; not needed where it has only one",
                  &Options::operation);
}
OptionRow from_option() {
    return valued("from", "NAME", "this lobe and those after it, farther from the drive end", &Options::from);
}

std::vector<OptionRow> readings_file_options() {
    return {
        valued("columns", "NAMES",
               "names of its columns in place of its own heading, as cam_angle,-,reading; - passes over one",
               &Options::columns_words),
        valued(
            "unit", "WORD",
            "one unit of a reading: mm, inch, thousandths (of an inch), hundredths or thousandths-mm (of a "
            "mm); the job's units if not given",
            &Options::readings_unit, Value::word,
            {"mm", "inch", "thousandths", "hundredths", "thousandths-mm"}),
        toggle("reversed", "its angles or marks count the other way round", &Options::reversed),
        {'\0',
         "unknown",
         "WORD",
         "fit this too: zero (what the indicator shows on the base circle) or runout (of the centres); "
         "may be given twice",
         &Options::unknown_words,
         Value::word,
         {"zero", "runout"}}};
}
OptionRow wheel_option() {
    return valued("method", "NAME", "the hand method whose index wheel's marks the readings count",
                  &Options::method);
}

OptionRow output_option(std::string says) {
    return valued("output", "FILE", std::move(says), &Options::output, Value::file, {}, 'o');
}
OptionRow quiet_option() {
    return toggle("quiet", "only complaints, no remarks", &Options::quiet, 'q');
}
OptionRow help_option(std::string says) {
    return toggle("help", std::move(says), &Options::help, 'h');
}
OptionRow json_option(std::string says) {
    return toggle("json", std::move(says), &Options::json);
}
OptionRow post_option() {
    return valued("post", "WORD",
                  "another post-processor than the job's: a name that `lobewright posts` lists, or a path to "
                  "a TOML file",
                  &Options::post, Value::post);
}
OptionRow format_option(std::vector<std::string> words) {
    std::string says = words[0] + " (if not given)";
    for (std::size_t i = 1; i < words.size(); ++i)
        says += (i + 1 < words.size() ? ", " : " or ") + words[i];
    return valued("format", "WORD", says, &Options::format_words, Value::word, std::move(words));
}

std::vector<OptionRow> with_common(std::vector<OptionRow> own) {
    for (OptionRow each : {output_option(), quiet_option(), help_option()})
        own.push_back(std::move(each));
    return own;
}

ArgumentRow job_argument() {
    return {"JOB.toml", &Options::job, Value::toml_file};
}

}  // namespace lobewright::cli
