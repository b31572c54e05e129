"""The folders are the stages: imports only point back up the list."""

from __future__ import annotations

import ast
import re
import tomllib
from importlib import import_module
from pathlib import Path

import pytest

import templates_gen

PACKAGE = Path(templates_gen.__file__).parent
STAGES = (
    "geometry",
    "drawing",
    "cakefile",
    "tiers",
    "guides",
    "pieces",
    "plan",
    "bench",
    "views",
    "printing",
    "sheets",
    "cover",
    "writers",
    "classroom",
    "chart",
    "handout",
    "web",
    "cli",
    "bundle",
)
BESIDE = (
    "errors",
    "licences",
    "memo",
    "resources",
    "spreadsheet",
    "terms",
    "units",
    "version",
    "__init__",
    "__main__",
)
UNKNOWN_TO = {"writers": {"cakefile", "tiers", "guides", "pieces", "plan"}}
"""Earlier stages that a stage may know nothing of all the same."""
MODULES = sorted(PACKAGE.rglob("*.py"))


def imported(module: Path) -> set[str]:
    """Return the parts of the package that a module imports."""
    found = set()
    for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("templates_gen"):
            assert node.level == 0
            names = (node.module or "").split(".")
            found |= {names[1]} if len(names) > 1 else {alias.name for alias in node.names}
        elif isinstance(node, ast.Import):
            found |= {
                a.name.split(".")[1] for a in node.names if a.name.startswith("templates_gen.")
            }
    return found


@pytest.mark.parametrize("module", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_imports_point_back_up_the_list(module: Path) -> None:
    """A stage imports itself, what stands beside the stages, and earlier stages it may know."""
    place = module.relative_to(PACKAGE).parts[0].removesuffix(".py")
    if place in STAGES:
        allowed = {*STAGES[: STAGES.index(place) + 1], *BESIDE} - UNKNOWN_TO.get(place, set())
        allowed |= {"PAPERS"} if place == "cli" else set()
        assert imported(module) <= allowed


def test_after_the_plan_nobody_takes_the_whole_cake_as_its_file_has_it() -> None:
    """Bench list, views, sheets, cover and writers are made from a plan alone."""
    after = set(STAGES[STAGES.index("plan") + 1 : STAGES.index("classroom")])
    takers = {
        module.relative_to(PACKAGE).parts[0].removesuffix(".py")
        for module in MODULES
        if "templates_gen.cakefile.cake" in module.read_text(encoding="utf-8")
    }
    assert takers & after == set()
    assert {"plan", "tiers", "guides"} <= takers


def test_every_folder_is_a_stage() -> None:
    """There is no room that the list does not know."""
    rooms = {path.name.removesuffix(".py") for path in PACKAGE.iterdir() if path.name[0] != "_"}
    assert rooms - {"py.typed"} == {*STAGES, *BESIDE} - {"__init__", "__main__"}


def test_shapely_is_spoken_to_from_one_folder() -> None:
    """Only the modules of geometry/areas import shapely."""
    speakers = [m for m in MODULES if "shapely" in _roots(m)]
    folders = {module.relative_to(PACKAGE).parent.as_posix() for module in speakers}
    assert folders == {"geometry/areas"}


def _roots(module: Path) -> set[str]:
    roots = set()
    for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            roots |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            roots.add((node.module or "").split(".")[0])
    return roots


def test_the_public_face_has_what_it_promises() -> None:
    """Every public name can be imported, and no other is promised."""
    for name in templates_gen.__all__:
        assert getattr(templates_gen, name) is not None
    assert {*templates_gen.__all__} < {*dir(templates_gen)}
    with pytest.raises(AttributeError):
        templates_gen.no_such_name  # noqa: B018


def test_type_checkers_see_the_public_face() -> None:
    """What is imported for type checkers alone is every public name, from where it really lives."""
    seen: dict[str | None, object] = {}
    for node in ast.walk(ast.parse((PACKAGE / "__init__.py").read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("templates_gen."):
            seen |= {
                alias.asname: getattr(import_module(node.module or ""), alias.name)
                for alias in node.names
            }
    assert seen == {name: getattr(templates_gen, name) for name in templates_gen.__all__}


def test_the_top_of_the_repository_is_tidy() -> None:
    """Nothing lies at the top but what belongs there."""
    top = PACKAGE.parent
    if not (top / "pyproject.toml").exists():
        pytest.skip("not in a checkout")
    known = {"README.md", "DEVELOPERS.md", "pyproject.toml", "LICENSE"}
    known |= {"templates_gen", "tests", "samples", "fonts", "out", "build", "dist"}
    seen = {path.name for path in top.iterdir() if not path.name.startswith(".")}
    assert {name for name in seen if not name.endswith(".egg-info")} <= known


def test_the_developers_page_names_what_there_is() -> None:
    """Its list is that of the stages, in their order, and every path on it exists."""
    page = (PACKAGE.parent / "DEVELOPERS.md").read_text(encoding="utf-8")
    listed = re.findall(r"^\d+\. `(\w+)(?:/|\.py)`", page, re.M)
    assert tuple(listed) == STAGES
    for path in re.findall(r"`([\w./]+(?:/|\.py))`", page):
        places = (PACKAGE, PACKAGE.parent, *(PACKAGE / stage for stage in STAGES))
        assert any((place / path).exists() for place in places), path


def test_the_developers_page_says_what_each_dependency_is_for() -> None:
    """Its table has the packages that an installation takes, each once, and no others."""
    page = (PACKAGE.parent / "DEVELOPERS.md").read_text(encoding="utf-8")
    project = tomllib.loads((PACKAGE.parent / "pyproject.toml").read_text(encoding="utf-8"))
    needed = [re.match(r"[\w-]+", each) for each in project["project"]["dependencies"]]
    section = page.partition("### What each dependency is for")[2].partition("\n## ")[0]
    named = re.findall(r"^\| `([\w-]+)` \| [\d.]+", section, re.M)
    assert sorted(named) == sorted(each.group() for each in needed if each)


def test_one_drip_can_be_followed() -> None:
    """In that section each name is one of the file that follows it, and each file is there."""
    page = (PACKAGE.parent / "DEVELOPERS.md").read_text(encoding="utf-8")
    section = page.partition("### One drip, file by file")[2].partition("\n### ")[0]
    quoted = re.findall(r"`([^`]+)`", section)
    files = [each for each in quoted if each.endswith(".py")]
    names = [each for each in quoted if re.fullmatch(r"[A-Za-z_][\w.]*", each)]
    names = [each for each in names if each not in files]
    assert len(quoted) == len(names) + len(files) + 1, "the line of the cake file is no name"
    homes = re.findall(r"`([\w.]+)`\s+(?:\((?:`)|in `)([\w/]+\.py)`", section)
    assert [name for name, _ in homes] == names
    for name, file in homes:
        assert name in defined(PACKAGE / file), (name, file)


def defined(path: Path) -> set[str]:
    """Return what a module defines, and in its classes as ``Class.name`` and ``name``."""
    found: set[str] = set()
    for node in ast.parse(path.read_text(encoding="utf-8")).body:
        if isinstance(node, ast.ClassDef):
            inner = {each for part in node.body for each in _targets(part)}
            found |= {node.name, *inner, *(f"{node.name}.{each}" for each in inner)}
        found |= _targets(node)
    return found


def _targets(node: ast.stmt) -> set[str]:
    """Return the names that a statement defines."""
    if isinstance(node, ast.FunctionDef):
        return {node.name}
    made = node.targets if isinstance(node, ast.Assign) else [getattr(node, "target", None)]
    return {each.id for each in made if isinstance(each, ast.Name)}


def test_no_two_modules_import_each_other() -> None:
    """From no module does one come back to it by imports: in a stage, in a function, for types."""
    names = {module_name(path): path for path in MODULES}
    imports = {name: targets(path) & names.keys() for name, path in names.items()}
    done: set[str] = set()

    def walk(name: str, way: tuple[str, ...]) -> None:
        assert name not in way, (*way, name)
        if name not in done:
            for other in sorted(imports[name] - {name}):
                walk(other, (*way, name))
            done.add(name)

    for name in names:
        walk(name, ())


def module_name(path: Path) -> str:
    """Return the name a module is imported by."""
    parts = path.relative_to(PACKAGE.parent).with_suffix("").parts
    return ".".join(parts).removesuffix(".__init__")


def targets(path: Path) -> set[str]:
    """Return what a module imports wherever it does, modules and names in them alike."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            found |= {node.module, *(f"{node.module}.{alias.name}" for alias in node.names)}
        elif isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
    return found
