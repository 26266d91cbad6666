"""Every keeper's command, declared once: its key, footer word, palette entry, help and where it is at home.

One letter means one thing everywhere. What is done with gloves on needs one key and no chord.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from textual.binding import Binding, BindingType

BINS, STACK, SEPARATION, JOURNAL, CAUTIONS = "bins", "stack", "separation", "journal", "cautions"
HANDBOOK = "handbook"
EVERYWHERE = frozenset({BINS, STACK, SEPARATION, JOURNAL, CAUTIONS, HANDBOOK})


@dataclass(frozen=True, slots=True)
class Command:
    """One command. `shown` names the screens whose footer carries it; `keys` are Textual key names."""

    id: str
    keys: str
    label: str
    help: str
    where: frozenset[str]
    shown: frozenset[str] = frozenset()
    key_word: str = ""

    def binding(self, screen: str) -> Binding:
        """The command as a key of that screen."""
        return Binding(
            self.keys,
            self.id,
            self.label,
            show=screen in self.shown,
            key_display=self.key_word or None,
            tooltip=self.help,
            id=f"{screen}.{self.id}",
        )


def _on(*screens: str) -> frozenset[str]:
    return frozenset(screens)


COMMANDS: tuple[Command, ...] = (
    Command(
        "open",
        "enter",
        "Open",
        "Open what is marked, or the reason behind it",
        _on(BINS, STACK, JOURNAL, CAUTIONS, HANDBOOK),
        _on(BINS, HANDBOOK),
        "Enter",
    ),
    Command(
        "go_on",
        "space",
        "Do it",
        "Do the one obvious thing",
        _on(BINS, STACK, SEPARATION),
        _on(STACK, SEPARATION),
        "Space",
    ),
    Command(
        "enter",
        "enter",
        "Type",
        "Type the marked weight or words; otherwise the same as Space",
        _on(SEPARATION),
    ),
    Command("feed", "f", "Feed", "Write down a feeding", _on(STACK), _on(STACK)),
    Command(
        "check",
        "k",
        "Check",
        "Write down readings: moisture, temperature, smell, sump",
        _on(STACK),
        _on(STACK),
    ),
    Command(
        "separate", "s", "Separate", "Separate a tray from its worms, step by step", _on(STACK), _on(STACK)
    ),
    Command(
        "turn", "t", "Turn", "See what every tray becomes, and write down the turn", _on(STACK), _on(STACK)
    ),
    Command("start", "a", "Add tray", "Put a tray with fresh bedding on the stack", _on(STACK)),
    Command("worms", "w", "Worms", "Write down worms put in or taken out", _on(STACK)),
    Command("supplies", "p", "Supplies", "Write down supplies that came in", _on(STACK)),
    Command("note", "i", "Note", "Write a note", _on(STACK, JOURNAL), _on(JOURNAL)),
    Command(
        "journal", "j", "Journal", "Everything written down, newest first", _on(STACK, SEPARATION), _on(STACK)
    ),
    Command("filter_tray", "v", "Tray", "Show one tray after another", _on(JOURNAL), _on(JOURNAL)),
    Command("filter_kind", "g", "Kind", "Show one kind of entry after another", _on(JOURNAL), _on(JOURNAL)),
    Command("new", "n", "New bin", "Make a profile for another bin", _on(BINS), _on(BINS)),
    Command("rename", "r", "Rename", "Give the marked bin another name", _on(BINS), _on(BINS)),
    Command("copy", "y", "Copy", "Copy the marked bin, to try things out on", _on(BINS), _on(BINS)),
    Command("archive", "x", "Archive", "Put the marked bin away; its file is kept", _on(BINS), _on(BINS)),
    Command("back", "b", "Back", "Go back one step", _on(SEPARATION), _on(SEPARATION)),
    Command(
        "more",
        "plus,equals_sign,right",
        "More",
        "More time, or more of what is marked",
        _on(SEPARATION),
        key_word="+",
    ),
    Command(
        "less", "minus,left", "Less", "Less time, or less of what is marked", _on(SEPARATION), key_word="-"
    ),
    Command(
        "end_early", "e", "End now", "End the rest or the loosening now", _on(SEPARATION), _on(SEPARATION)
    ),
    Command("put_back", "z", "Put back", "Give up: the tray goes back to its level", _on(SEPARATION)),
    Command("hush", "m", "Hush", "Silence the bell of a rest that is over", EVERYWHERE),
    Command(
        "undo", "u", "Undo", "Take back the last entry", _on(STACK, JOURNAL, BINS, SEPARATION), _on(JOURNAL)
    ),
    Command(
        "cautions", "c", "Cautions", "Read the cautions, with their reasons", _on(BINS, STACK, SEPARATION)
    ),
    Command("search", "tab", "Search", "Type words to find a page by", _on(HANDBOOK), _on(HANDBOOK), "Tab"),
    Command(
        "handbook",
        "h",
        "Handbook",
        "Look up what is marked; in the handbook, see all its pages",
        EVERYWHERE,
        EVERYWHERE - _on(STACK),
    ),
    Command(
        "leave",
        "escape",
        "Leave",
        "Leave this screen; its place is kept",
        EVERYWHERE - _on(BINS),
        _on(SEPARATION, JOURNAL, CAUTIONS, HANDBOOK),
        "Esc",
    ),
    Command(
        "help",
        "question_mark,f1",
        "Help",
        "The keys of this screen, and what they do",
        EVERYWHERE,
        EVERYWHERE,
        "?",
    ),
    Command(
        "quit", "q", "Quit", "Leave trayturn; everything is on disk already", EVERYWHERE, _on(BINS, STACK)
    ),
)


def commands_of(screen: str) -> Iterable[Command]:
    """The commands at home on a screen, in their order everywhere."""
    return (command for command in COMMANDS if screen in command.where)


def bindings(screen: str) -> list[BindingType]:
    """The keys of a screen."""
    return [command.binding(screen) for command in commands_of(screen)]
