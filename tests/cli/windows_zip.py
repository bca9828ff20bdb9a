#!/usr/bin/env python3
"""What lies in the zip for Windows: windows_zip.py ZIP PAGE. With an empty PAGE it must hold none."""
import pathlib
import sys
import zipfile

archive, page = sys.argv[1:]
with zipfile.ZipFile(archive) as packed:
    files = {name.split("/", 1)[1]: name for name in packed.namelist() if not name.endswith("/")}
    assert "bin/lobewright.exe" in files, files
    assert ("lobewright.html" in files) == bool(page), files
    if page:
        assert packed.read(files["lobewright.html"]) == pathlib.Path(page).read_bytes(), "another page than the one made"
    notices = packed.read(files["notices.txt"]).decode()
for title in ("Boost", "toml++", "CLI11", "JSON for Modern C++", "The Windows libraries of mingw-w64"):
    assert f"{title}\n\n" in notices, f"no notice of {title}"
print(f"the zip holds program and notices{' and the page' if page else ', no page'}")
