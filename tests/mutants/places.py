"""Where the source can be changed, and to what: found in its text, without a compiler.

A place is a constant, a sign, a comparison or a whole statement. Each change is made by insertions alone, in its own line,
so that many of them go into one copy of a file: which one works is asked at run time (switches.h).
"""
import hashlib
import re
from dataclasses import dataclass, field

STAGES = ("profile", "toolpath", "post", "proof", "hand")
KINDS = ("constant", "sign", "comparison", "statement")


@dataclass
class Place:
    file: str  # below the source tree
    line: int
    kind: str
    what: str  # what stands there, and what in its place
    stands: str  # the whole line, or of a longer statement its first
    edits: list = field(default_factory=list)  # (offset, characters that go, text that comes, with {n} for the number)
    rank: str = ""  # by seed: the order of the sample

    @property
    def stage(self):
        return self.file.split("/")[1]


def masked(text):
    """The text with comments, literals and preprocessor lines blanked out, as long as it was."""
    pattern = r'R"\((?:.|\n)*?\)"|"(?:\\.|[^"\\\n])*"|(?<![0-9A-Za-z_])\'(?:\\.|[^\'\\\n])+\'|//[^\n]*|/\*(?:.|\n)*?\*/|^[ \t]*#[^\n]*'
    return re.sub(pattern, lambda m: re.sub(r"[^\n]", "\x01", m.group()), text, flags=re.M)


def line_of(text, at):
    return text.count("\n", 0, at) + 1


def whole_line(text, at):
    start = text.rfind("\n", 0, at) + 1
    end = text.find("\n", at)
    return text[start : end if end >= 0 else len(text)]


# A change there alters nothing that runs, or does not compile; what stands in column 0 is no statement.
UNTOUCHED = re.compile(r"^\S|\b(constexpr|static_assert|template|using|enum|case|operator|reserve)\b")


def changed_number(literal, choice):
    """A tenth more or less of a real number, one more or less of a whole one."""
    if re.fullmatch(r"\d+", literal):
        n = int(literal)
        return str(n + 1 if choice or n == 0 else n - 1)
    value = float(literal)
    if value == 0.0:
        return "0.01" if choice else "-0.01"
    return repr(float(f"{value * (1.1 if choice else 0.9):.6g}"))


def choice_by(seed, file, at):
    return hashlib.sha256(f"{seed}:{file}:{at}".encode()).digest()[0] % 2 == 1


NUMBER = r"(?<![\w.'])(\d+\.\d*(?:e[-+]?\d+)?|\d+e[-+]?\d+|\d+)(?![\w.'])"


def constants(file, text, code, seed):
    for m in re.finditer(NUMBER, code):
        if UNTOUCHED.search(whole_line(code, m.start())):
            continue
        new = changed_number(m.group(), choice_by(seed, file, m.start()))
        yield place(file, text, m.start(), "constant", f"{m.group()} -> {new}",
                    [(m.start(), len(m.group()), f"(lobewright_mutants::on({{n}}) ? {new} : {m.group()})")])


def named_constants(file, text, code, seed):
    """Constants of the file: their declaration stays, their uses below it become calls."""
    for m in re.finditer(rf"^(?:inline )?constexpr (double|int|std::size_t) (\w+) = {NUMBER};.*$", code, re.M):
        new = changed_number(m.group(3), choice_by(seed, file, m.start()))
        name, line = m.group(2), line_of(text, m.start())
        after = (f"\nstatic {m.group(1)} lobewright_constant_{{n}}() {{{{ return lobewright_mutants::on({{n}}) ? {new} : {m.group(3)}; }}}}"
                 f"\n#define {name} lobewright_constant_{{n}}()\n#line {line + 1}\n")
        end = m.end() + 1 if text[m.end() : m.end() + 1] == "\n" else m.end()
        yield place(file, text, m.start(), "constant", f"{name} = {m.group(3)} -> {new}", [(end, 0, after[1:])])


def operators(file, text, code):
    """Binary operators stand between two spaces, or before the end of a line."""
    for m in re.finditer(r"(?<=[\w)\]}\x01]) (<=|>=|==|!=|[-+*/<>])(?= |\n)", code):
        if UNTOUCHED.search(whole_line(code, m.start())):
            continue
        sign = m.group(1)
        if "\x01" in (code[m.start() - 1], code[m.end() + 1]):
            continue  # strings are joined
        kind = "sign" if sign in "+-*/" else "comparison"
        yield place(file, text, m.start(1), kind, f"{sign} changed", [(m.end(), 0, f" lobewright_mutants::Op({{n}}) {sign}")])


def unary_minus(file, text, code):
    for m in re.finditer(r"(?<=[(,={?:])(\s?)-(?=[\w(])|(?<=return )-(?=[\w(])", code):
        at = m.end() - 1
        if UNTOUCHED.search(whole_line(code, at)):
            continue
        yield place(file, text, at, "sign", "-x -> x", [(at, 1, "lobewright_mutants::Sign({n}) * ")])


def extremes(file, text, code):
    for m in re.finditer(r"std::(max|min)\(", code):
        if UNTOUCHED.search(whole_line(code, m.start())):
            continue
        other = "min" if m.group(1) == "max" else "max"
        yield place(file, text, m.start(), "comparison", f"{m.group(1)} -> {other}",
                    [(m.start(), len(m.group()) - 1, f"lobewright_mutants::{m.group(1)}_of<{{n}}>")])


def end_of_statement(code, start):
    """Where the statement's semicolon is; nothing where a block or the end of what is around it comes first."""
    depth = 0
    for i in range(start, len(code)):
        c = code[i]
        depth += (c in "([{") - (c in ")]}")
        if depth < 0:
            return None
        if c == ";" and depth == 0:
            return i
    return None


def without_groups(statement):
    """What stands outside all brackets."""
    depth, kept = 0, []
    for c in statement:
        depth -= c in ")]}"
        if depth == 0:
            kept.append(c)
        depth += c in "([{"
    return "".join(kept)


KEYWORDS = re.compile(r"(return|const|auto|constexpr|static|using|for|while|switch|case|default|do|else|break|continue|struct|class|enum|template|"
                      r"typename|public|private|protected|throw|delete|goto|friend|namespace|static_assert|explicit|void)\b|[.:\[~}#\x01]")


def is_plain_statement(statement):
    outside = without_groups(statement)
    if statement.startswith("if (") and "{" not in outside:
        return not re.match(r"if \(\)\s*(for|while|if|else)\b", outside)
    head = re.split(r" ?(?:[-+*/|&]?=) ", outside)[0].strip()
    return not KEYWORDS.match(statement) and re.fullmatch(r"(\+\+|--|\*)?[\w:.()\[\]]+(->[\w.()\[\]]+)*(\+\+|--)?;?", head) is not None


def statements(file, text, code):
    for m in re.finditer(r"(?<=[;{}):e\x01])\n+ +(?=\S)", code):
        start = m.end()
        if whole_line(code, start).strip().startswith("else") or UNTOUCHED.search(whole_line(code, start)):
            continue
        end = end_of_statement(code, start)
        if end is None or not is_plain_statement(code[start:end]) or code[end + 1 :].lstrip("\x01 \n").startswith("else"):
            continue
        yield place(file, text, start, "statement", "left out", [(start, 0, "if (!lobewright_mutants::on({n})) ")])


def place(file, text, at, kind, what, edits):
    return Place(file, line_of(text, at), kind, what, whole_line(text, at).strip(), edits)


def places_of(file, text, seed):
    """All places of a file, ranked by seed, file and what stands there: a change elsewhere leaves the others their rank."""
    code, found, twins = masked(text), [], {}
    for some in (constants(file, text, code, seed), named_constants(file, text, code, seed), operators(file, text, code),
                 unary_minus(file, text, code), extremes(file, text, code), statements(file, text, code)):
        found += some
    for p in found:
        key = f"{seed}:{p.file}:{p.kind}:{p.what}:{p.stands}"
        twins[key] = twins.get(key, 0) + 1
        p.rank = hashlib.sha256(f"{key}:{twins[key]}".encode()).hexdigest()
        if twins[key] > 1:
            p.what += f", no. {twins[key]}"
    return found


def with_switches(text, numbered):
    """The file with its places switched: numbered is a list of (number, place)."""
    edits = sorted((at, gone, new.format(n=number)) for number, p in numbered for at, gone, new in p.edits)
    parts, done = [], 0
    for at, gone, new in edits:
        parts += [text[done:at], new]
        done = at + gone
    return "".join(parts) + text[done:]
