"""`load_house` and `dump_house` as somebody types them: answers, exit codes, lines on standard error."""

import io
import json
import os
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest
from django.core.management import CommandError, call_command, load_command_class

from tests.factories import make_a_house, make_place, make_position
from tests.venue.house_documents import SAMPLES, a_house, as_bytes, booth, ordered, sample, slot, stay
from venue.house_file.parsing import MOST_BYTES
from venue.management.command import AnswerCommand
from venue.models import Event, House

ROOT = Path(__file__).parents[2]
VELLORY = str(SAMPLES / "vellory.json")


def typed(name, *args, stdin=b""):
    """What the command does as from a shell: its exit code, its output and its lines on standard error."""
    command = name if isinstance(name, AnswerCommand) else load_command_class("venue", name)
    command._called_from_command_line = True
    out, err = io.StringIO(), io.StringIO()
    code = 0
    before, sys.stdin = sys.stdin, SimpleNamespace(buffer=io.BytesIO(stdin))
    try:
        options = vars(command.create_parser("manage.py", "command").parse_args([str(arg) for arg in args]))
        command.execute(**{**options, "stdout": out, "stderr": err, "no_color": True})
    except SystemExit as end:
        code = end.code
    finally:
        sys.stdin = before
    return SimpleNamespace(code=code, out=out.getvalue(), lines=err.getvalue().splitlines())


@pytest.fixture
def file(tmp_path):
    """Writes a document, or bytes, to a file and gives its path."""

    def write(document, name="house.json"):
        path = tmp_path / name
        path.write_bytes(document if isinstance(document, bytes) else as_bytes(document))
        return path

    return write


# -- load_house ----------------------------------------------------------------------------------------


@pytest.mark.django_db
def test_a_house_is_loaded_with_one_short_line():
    answer = typed("load_house", VELLORY)
    assert (answer.code, answer.lines) == (0, [])
    assert answer.out == ("Stored Vellory Opera “Süd” (vellory). Positions: 4, slots: 5, units: 4, placements: 4.\n")
    assert set(Event.objects.values_list("actor_kind", "actor_name")) == {("command", "load_house")}


@pytest.mark.django_db
def test_with_json_the_answer_is_one_document_and_nothing_else():
    answer = typed("load_house", VELLORY, "--json")
    assert (answer.code, answer.lines) == (0, [])
    assert json.loads(answer.out) == {
        "slug": "vellory",
        "name": "Vellory Opera “Süd”",
        "outcome": "stored",
        "in_file": {"positions": 4, "slots": 5, "units": 4, "placements": 4},
        "changes": [],
        "warnings": [],
    }


@pytest.mark.django_db
def test_the_answer_counts_what_the_file_names_of_the_book(file):
    fitted = [{"unit": "FS-01", "from": "2026-01-10T10:00:00-06:00", "meter_h": 812.0}]
    lamps = [{"serial": "L-0117", "kind": "a", "fitted": fitted}]
    path = file(a_house(lamp_kinds=[{"name": "a"}], lamps=lamps, log=[]))
    assert json.loads(typed("load_house", path, "--json").out)["in_file"] == {
        "positions": 1, "slots": 2, "units": 2, "placements": 0, "lamp_kinds": 1, "lamps": 1,
    }  # fmt: skip
    assert typed("dump_house", "vellory").lines == []


@pytest.mark.django_db
def test_a_house_comes_from_standard_input_too():
    assert typed("load_house", "-", stdin=sample("tarn_bowl.json")).code == 0
    assert House.objects.get().slug == "tarn-bowl"


@pytest.mark.django_db
def test_a_warning_is_a_line_on_standard_error_and_the_house_is_loaded(file):
    path = file(a_house(booth(slot("1", -2.0, order=2), slot("2", 2.0, order=1))))
    answer = typed("load_house", path, "--json")
    assert answer.code == 0
    assert answer.lines == [
        f"{path}: $.positions[0].slots[0].order: order 2 goes against x_m: "
        "order rises from house left, and so does x_m; check both"
    ]
    assert json.loads(answer.out)["warnings"][0]["path"] == "$.positions[0].slots[0].order"


@pytest.mark.django_db
def test_each_problem_is_a_line_with_file_and_path_and_nothing_is_stored(file):
    path = file(a_house(booth(slot("1", height=3), ordered("01", 0)), house={"layout": "oval"}))
    answer = typed("load_house", path)
    assert (answer.code, answer.out) == (2, "")
    assert answer.lines == [
        f'{path}: $.house.layout: is "oval"; write one of "proscenium", "thrust", "round", "bowl"',
        f"{path}: $.positions[0].slots[0].height: unknown key; known here: label, x_m, y_m, z_m, x_text, y_text, "
        "z_text, throw_m, throw_text, throw_end, throw_mark, throw_end_y_m, throw_end_text, bearing_deg, order, unit, "
        "operated_from, circuit",
        f"{path}: $.positions[0].slots[1].order: is 0; write a whole number from 1 to 100000",
        f'{path}: $.positions[0].slots[1].label: "01" is the same label as at $.positions[0].slots[0].label; '
        "within a position each label stands once",
    ]
    assert not House.objects.exists()


@pytest.mark.django_db
def test_a_section_that_nobody_knows_is_refused_by_name(file):
    answer = typed("load_house", file(a_house(weather=[], log=[])))
    assert answer.code == 2
    assert [line.split(": ")[1] for line in answer.lines] == ["$.weather"]


@pytest.mark.django_db
def test_a_slug_that_is_there_is_refused_with_the_differences(file):
    typed("load_house", file(a_house()))
    path = file(a_house(booth(slot("1", -2.5), slot("2", 2.0))))
    answer = typed("load_house", path)
    assert (answer.code, answer.out) == (2, "")
    assert answer.lines == [
        f"{path}: $.house.slug: the house vellory is on file already and differs; "
        "load with --update to change it, or give the file another slug",
        f"{path}: $.positions[0].slots[0].x_m: stored -2.0, file -2.5",
    ]


@pytest.mark.django_db
def test_an_update_says_what_it_changed(file):
    typed("load_house", file(a_house()))
    path = file(a_house(booth(slot("1", -2.5), slot("3", 4.0))))
    answer = typed("load_house", path, "--update")
    assert (answer.code, answer.lines) == (0, [])
    assert answer.out.splitlines() == [
        "Updated Vellory Opera (vellory):",
        "$.positions[0].slots[0].x_m: stored -2.0, file -2.5",
        '$.positions[0].slots[1]: only in the file: {"label": "3", "x_m": 4.0, "y_m": -38.0, "z_m": 14.0}',
    ]
    again = typed("load_house", path, "--update")
    assert again.out == "Vellory Opera (vellory) says the same already; nothing was changed.\n"


@pytest.mark.django_db
def test_an_update_in_json_names_path_and_both_values(file):
    typed("load_house", file(a_house()))
    answer = typed("load_house", file(a_house(booth(slot("1", -2.5)))), "--update", "--json")
    assert json.loads(answer.out)["changes"] == [{"path": "$.positions[0].slots[0].x_m", "stored": -2.0, "file": -2.5}]


@pytest.mark.django_db
def test_an_update_that_the_record_refuses_names_the_path_and_stores_nothing(file):
    typed("load_house", file(a_house(placements=[stay("FS-01", "1", "2025-09-01")])))
    path = file(a_house(booth(slot("1", -9.0), slot("2", 2.0, unit="FS-01"))))
    answer = typed("load_house", path, "--update")
    assert answer.code == 2
    assert [line.split(": ")[1] for line in answer.lines] == ["$.positions[0].slots[1].unit"]
    assert '"x_m": -2.0' in typed("dump_house", "vellory").out


@pytest.mark.parametrize(
    ("name", "reason"),
    [("missing.json", "No such file or directory"), ("", "Is a directory"), ("a\0b", "embedded null byte")],
)
def test_a_file_that_cannot_be_read_is_one_line(name, reason, tmp_path):
    answer = typed("load_house", f"{tmp_path}/{name}")
    assert (answer.code, answer.out, len(answer.lines)) == (2, "", 1)
    assert f"can't be read: {reason}; name a file, or - for standard input" in answer.lines[0]


def test_a_file_without_permission_is_one_line(monkeypatch):
    def forbidden(*_args, **_options):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", forbidden)
    answer = typed("load_house", "house.json")
    assert answer.lines == ["house.json: can't be read: Permission denied; name a file, or - for standard input"]
    assert answer.code == 2


@pytest.mark.parametrize("data", [b"", b"\x89PNG\r\n\x1a\n\x00", b"not json", b"[" * 100_000, b" " * (MOST_BYTES + 1)])
def test_a_file_of_another_kind_is_one_line(data, file):
    path = file(data)
    answer = typed("load_house", path)
    assert (answer.code, answer.out, len(answer.lines)) == (2, "", 1)
    assert answer.lines[0].startswith(f"{path}: $: ")


def test_an_endless_file_is_not_read_to_its_end():
    answer = typed("load_house", "/dev/zero")
    assert answer.code == 2
    assert answer.lines == ["/dev/zero: $: the file is larger than 100 MB; split the house or leave history out"]


def test_there_may_be_no_standard_input(monkeypatch):
    monkeypatch.setattr(sys, "stdin", None)
    with pytest.raises(CommandError, match="there is no standard input"):
        call_command("load_house", "-")


# -- dump_house ----------------------------------------------------------------------------------------


@pytest.mark.django_db
@pytest.mark.parametrize("options", [[], ["--json"]])
def test_a_house_is_dumped_as_its_file(options, file):
    typed("load_house", file(sample("vellory.written.json")))
    answer = typed("dump_house", "vellory", *options)
    assert (answer.code, answer.lines) == (0, [])
    assert answer.out.encode() == sample("vellory.written.json")


@pytest.mark.django_db
def test_a_dump_does_not_differ_from_the_house(file):
    typed("load_house", VELLORY)
    dump = typed("dump_house", "vellory").out.encode()
    assert typed("load_house", "-", "--update", stdin=dump).out.endswith("nothing was changed.\n")


@pytest.mark.django_db
def test_an_unknown_slug_is_one_line():
    answer = typed("dump_house", "nowhere")
    assert (answer.code, answer.out) == (2, "")
    assert answer.lines == ["There is no house “nowhere” on file."]


@pytest.mark.django_db
def test_a_dump_says_where_the_house_could_not_be_loaded_as_it_stands():
    position = make_position(make_a_house("By Hand", slug="by-hand"), "Rail")
    make_place(position, "1", bearing_deg=180.0)
    answer = typed("dump_house", "by-hand")
    assert answer.code == 0
    assert json.loads(answer.out)["positions"][0]["slots"] == [{"label": "1", "bearing_deg": 180.0}]
    assert answer.lines == [
        "by-hand: $.positions[0].slots[0].order: is missing: $.positions[0].slots[0] has no x, y and z, so order "
        "decides; give every slot in the position an order (stored so; load_house will refuse it)"
    ]


# -- every command -------------------------------------------------------------------------------------


class Answering(AnswerCommand):
    """Does what a test says."""

    def __init__(self, act):
        super().__init__()
        self.act = act

    def answer(self, options):
        return self.act(options)


@pytest.mark.parametrize("args", [[], ["a", "b"], ["--unknown", "a"]])
@pytest.mark.parametrize("name", ["load_house", "dump_house"])
def test_wrong_arguments_are_one_line_and_exit_2(name, args, capsys):
    assert typed(name, *args).code == 2
    captured = capsys.readouterr()
    assert (captured.out, len(captured.err.splitlines())) == ("", 1)
    assert captured.err.endswith("; see manage.py command --help\n")


def test_a_program_that_calls_a_command_gets_an_exception_with_the_lines():
    with pytest.raises(CommandError) as refused:
        call_command("load_house", "missing.json")
    assert refused.value.returncode == 2
    assert str(refused.value).startswith("missing.json: can't be read")


def test_a_defect_is_one_line_without_a_traceback():
    def broken(_options):
        return {}["nothing"]

    answer = typed(Answering(broken))
    assert answer.code == 1
    assert answer.lines == ["unexpected KeyError: 'nothing'; run again with --traceback to see where"]


def test_a_defect_is_shown_in_full_to_whoever_asks():
    def broken(_options):
        return {}["nothing"]

    with pytest.raises(KeyError):
        typed(Answering(broken), "--traceback")


def test_marks_that_do_not_show_are_written_out_and_every_problem_stays_on_its_line(tmp_path):
    answer = typed("load_house", f"{tmp_path}/two\nlines\u202e.json")
    assert len(answer.lines) == 1
    assert "two lines\\u202e.json: can't be read" in answer.lines[0]


# -- as separate programs, on a database of their own -----------------------------------------------------


@pytest.fixture(scope="module")
def shell(tmp_path_factory):
    """Runs manage.py on a SQLite file of its own, as a shell would."""
    folder = tmp_path_factory.mktemp("shell")
    surroundings = {**os.environ, "DATABASE_URL": f"sqlite:///{folder}/house.sqlite3"}
    surroundings |= {"DJANGO_SETTINGS_MODULE": "config.settings.test", "PYTHONIOENCODING": "latin-1"}

    def run(command, **options):
        full = f"set -o pipefail; {sys.executable} manage.py {command}"
        return subprocess.run(
            ["bash", "-c", full], cwd=ROOT, env=surroundings, capture_output=True, timeout=120, **options
        )

    return run


def test_the_commands_work_as_programs_and_a_reader_that_goes_away_early_leaves_no_traceback(shell):
    unready = shell("dump_house vellory")
    assert (unready.returncode, len(unready.stderr.splitlines())) == (1, 1)
    assert b"run \xe2\x80\x9cmanage.py migrate\xe2\x80\x9d" in unready.stderr

    assert shell("migrate --verbosity 0").returncode == 0
    loaded = shell(f"load_house {SAMPLES / 'vellory.written.json'}")
    assert (loaded.returncode, loaded.stderr) == (0, b"")

    dumped = shell("dump_house vellory")
    assert (dumped.returncode, dumped.stderr) == (0, b"")
    assert dumped.stdout == sample("vellory.written.json")

    refused = shell("load_house - --json", input=b'{"version": 1}')
    assert (refused.returncode, refused.stdout) == (2, b"")
    assert refused.stderr.splitlines()[0] == b'-: $.format: is missing; write "throwbook-house"'

    unknown = shell("dump_house nowhere")
    assert (unknown.returncode, len(unknown.stderr.splitlines())) == (2, 1)

    cut = shell(f"load_house {VELLORY} --update >/dev/null; {sys.executable} manage.py dump_house vellory | true")
    assert (cut.returncode, cut.stderr) == (1, b"")
    full = shell("dump_house vellory >/dev/full")
    assert (full.returncode, len(full.stderr.splitlines())) == (1, 1)


def test_a_house_file_is_read_without_settings_or_database_and_the_schema_is_fetched_only_then():
    program = (
        "import sys; from venue.house_file.reading import read_house_file; "
        "assert not {'jsonschema', 'venue.models', 'django.db'} & set(sys.modules); "
        f"print(read_house_file(open({VELLORY!r}, 'rb').read()).house.slug, 'django.db' in sys.modules)"
    )
    surroundings = {name: value for name, value in os.environ.items() if name != "DJANGO_SETTINGS_MODULE"}
    done = subprocess.run([sys.executable, "-c", program], cwd=ROOT, env=surroundings, capture_output=True, timeout=60)
    assert (done.stdout, done.stderr) == (b"vellory False\n", b"")
