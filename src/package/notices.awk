# Of a machine-readable copyright file (https://www.debian.org/doc/packaging-manuals/copyright-format/1.0/) the part that goes with
# binaries: who holds the rights in the files wanted, and the licences in full. The file is named twice:
#   awk -v "wanted=* include/*" -f notices.awk copyright copyright
# A pattern that is wanted stands there as the file has it, or is where one of its patterns begins.
BEGIN {
    RS = ""
    FS = "\n"
    count = split(wanted, patterns, " ")
}

# What the field holds, its lines as one.
function field(name,    i, text, within) {
    for (i = 1; i <= NF; ++i) {
        if ($i ~ /^[^ \t]/) within = index($i, name ":") == 1
        if (within) text = text " " (index($i, name ":") == 1 ? substr($i, length(name) + 2) : $i)
    }
    return text
}
function is_wanted(    i, k, files, total) {
    total = split(field("Files"), files, " ")
    for (i = 1; i <= total; ++i)
        for (k = 1; k <= count; ++k)
            if (files[i] == patterns[k] || (patterns[k] != "*" && index(files[i], patterns[k]) == 1)) return 1
    return 0
}
function licence_line(    i) {
    for (i = 1; i <= NF; ++i)
        if ($i ~ /^License:/) return substr($i, 10)
    return ""
}
# Notes of the packagers are not part of it.
function show(    i, within) {
    for (i = 1; i <= NF; ++i) {
        if ($i ~ /^[^ \t]/) within = $i ~ /^(Copyright|License|License-Grant):/
        if (within) print ($i ~ /^ \.$/ ? "" : $i)
    }
    print ""
}

NR == FNR {
    if ($0 ~ /(^|\n)Files:/ && is_wanted()) {
        total = split(licence_line(), names, " ")
        for (i = 1; i <= total; ++i) {
            sub(/,$/, "", names[i])
            named[names[i]] = 1
        }
    }
    next
}
/(^|\n)Files:/ {
    if (is_wanted()) show()
    next
}
/^License:/ {
    name = licence_line()
    gsub(/^ +| +$/, "", name)
    if (name in named) show()
}
