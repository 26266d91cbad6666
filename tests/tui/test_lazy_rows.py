"""A list whose rows are made when they are drawn."""

from pathlib import Path

from textual.screen import Screen

from tests.tui.house import opened
from trayturn.tui.widgets.line_list import LazyRows, LineList, Row


def rows(count: int, made: list[int]) -> LazyRows:
    def make(place: int) -> Row:
        made.append(place)
        return Row(((("row", "plain"),),), str(place))

    return LazyRows([str(place) for place in range(count)], make)


async def test_only_rows_in_sight_are_made(tmp_path: Path) -> None:
    made: list[int] = []
    async with opened(tmp_path, Screen()) as (app, pilot):
        entries = LineList()
        await app.screen.mount(entries)
        entries.show(rows(50_000, made))
        await pilot.pause()
        assert 0 < len(set(made)) <= 24
        entries.focus()
        await pilot.press("end")
        await pilot.pause()
        assert entries.marked_key == "49999"
        assert len(set(made)) <= 48


async def test_the_mark_stays_on_what_it_marked(tmp_path: Path) -> None:
    async with opened(tmp_path, Screen()) as (app, _):
        entries = LineList()
        await app.screen.mount(entries)
        entries.show(rows(10, []))
        entries.marked = 7
        entries.show(LazyRows(["7", "8"], lambda place: Row((), str(7 + place))))
        assert (entries.marked, entries.marked_key) == (0, "7")


def test_a_part_of_lazy_rows_is_made_as_asked() -> None:
    made: list[int] = []
    assert [row.key for row in rows(9, made)[2:4]] == ["2", "3"]
    assert made == [2, 3]
    assert rows(9, made)[-1].key == "8"
