"""Only `wale/files.py` reaches the world; everything else is given what it needs."""

import ast
from pathlib import Path

import wale

PACKAGE = Path(wale.__file__).parent
REACHING_MODULES = {
    *("getpass", "glob", "http", "os", "random", "secrets", "shutil", "socket", "subprocess"),
    *("tempfile", "time", "urllib", "uuid"),
}
REACHING_METHODS = {"write_text", "write_bytes", "unlink", "mkdir", "iterdir", "rglob", "now", "today", "utcnow"}


def reaches(code: str) -> list[str]:
    """Give what in a module's text reaches the world: imports, `open(...)`, methods that touch files."""
    found = []
    for node in ast.walk(ast.parse(code)):
        match node:
            case ast.Import(names=names):
                found += [name.name for name in names if name.name.split(".")[0] in REACHING_MODULES]
            case ast.ImportFrom(module=str(module)) if module.split(".")[0] in REACHING_MODULES:
                found.append(module)
            case ast.Call(func=ast.Name(id="open" | "input" | "exec" | "eval" | "__import__" as name)):
                found.append(name)
            case ast.Call(func=ast.Attribute(attr=name)) if name in REACHING_METHODS:
                found.append(name)
    return [name for name in found if name != "os.path"]  # splits and joins names, reads nothing that we call


def test_the_search_sees_what_it_should():
    assert reaches("import os") == ["os"]
    assert reaches("from time import time") == ["time"]
    assert reaches("def f():\n    return open('x').read()") == ["open"]
    assert reaches("Path('x').write_text('y')") == ["write_text"]
    assert reaches("datetime.now()") == ["now"]
    assert reaches("import os.path\nimport re\nfrom wale.files import World") == []


def test_only_the_door_reaches_the_world():
    modules = {path.relative_to(PACKAGE).as_posix(): path.read_text("utf-8") for path in PACKAGE.rglob("*.py")}
    assert "files.py" in modules and reaches(modules["files.py"])
    offenders = {name: found for name, code in modules.items() if name != "files.py" and (found := reaches(code))}
    assert offenders == {}
