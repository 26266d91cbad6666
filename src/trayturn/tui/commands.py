"""Every keeper's command, declared once: its key, footer word, palette entry, help and where it is at home.

One letter means one thing everywhere. What is done with gloves on needs one key and no chord.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from textual.binding import Binding, BindingType

BINS, STACK, SEPARATION, JOURNAL, CAUTIONS = "bins", "stack", "separation", "journal", "cautions"
BEGIN, SUPPLIES, PAST, DUE = "begin", "supplies", "past", "due"
PUT_RIGHT, HANDBOOK, FEED, CHECK = "put_right", "handbook", "feed", "check"
TURN_DAY, TURN_RUN, COMPARE = "turn_day", "turn_day_run", "compare"
LEDGER, FOUND, LOTS = "ledger", "found", "castings"
OUTLOOK = "outlook"
EVERYWHERE = frozenset(
    {BINS, STACK, SEPARATION, JOURNAL, CAUTIONS, BEGIN, SUPPLIES, PAST, DUE, PUT_RIGHT, HANDBOOK, FEED, CHECK}
    | {LEDGER, FOUND, LOTS, TURN_DAY, TURN_RUN, OUTLOOK, COMPARE}
)


@dataclass(frozen=True, slots=True)
class Command:
    """One command. `shown` names the screens whose footer carries it; `keys` are Textual key names.

    A command without keys is reached by its name, in the palette. `here` has the label and help of a screen
    on which the same key needs other words.
    """

    id: str
    keys: str
    label: str
    help: str
    where: frozenset[str]
    shown: frozenset[str] = frozenset()
    key_word: str = ""
    here: Mapping[str, tuple[str, str]] = field(default_factory=dict)

    def on(self, screen: str) -> Command:
        """The command in the words of that screen."""
        label, told = self.here.get(screen, (self.label, self.help))
        return replace(self, label=label, help=told)

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
        _on(BINS, STACK, JOURNAL, CAUTIONS, BEGIN, SUPPLIES, PAST, DUE, PUT_RIGHT, HANDBOOK, FEED)
        | _on(LEDGER, FOUND, LOTS, TURN_DAY, OUTLOOK, COMPARE),
        _on(
            BINS,
            BEGIN,
            SUPPLIES,
            PAST,
            PUT_RIGHT,
            HANDBOOK,
            FEED,
            LEDGER,
            FOUND,
            LOTS,
            TURN_DAY,
            OUTLOOK,
            COMPARE,
        ),
        "Enter",
        {
            TURN_DAY: ("All of it", "The whole day: lifts, tools, time, stock and cautions"),
            LOTS: ("Why", "Why that comes next, and all that is known of the marked lot"),
            OUTLOOK: ("Why", "What the band rests on, what does not fit, what to measure"),
            LEDGER: ("Why", "Where the numbers of the marked row come from"),
            FOUND: ("Why", "The whole story of what is marked"),
            DUE: ("Why", "The reason behind what is marked"),
            FEED: ("Open", "Type the marked amount, take what is proposed, or tell why"),
        },
    ),
    Command(
        "go_on",
        "space",
        "Do it",
        "Do the one obvious thing",
        _on(
            BINS,
            STACK,
            SEPARATION,
            BEGIN,
            SUPPLIES,
            DUE,
            PUT_RIGHT,
            FEED,
            CHECK,
            FOUND,
            LOTS,
            TURN_DAY,
            TURN_RUN,
        ),
        _on(STACK, SEPARATION, BEGIN, SUPPLIES, DUE, PUT_RIGHT, FEED, CHECK, FOUND, LOTS, TURN_DAY, TURN_RUN),
        "Space",
        {
            TURN_DAY: ("Begin", "Begin the turn day as it is planned"),
            LOTS: ("Do it", "Do what comes next for the marked lot"),
            FOUND: ("Stopped", "Mark the source stopped: nothing more comes in with it"),
            DUE: ("Do it", "Do what is marked"),
            FEED: ("Record", "Write the meal down as it stands; supplies go down by it"),
            CHECK: ("Save", "Save all that was read as one check"),
        },
    ),
    Command(
        "enter",
        "enter",
        "Type",
        "Type the marked weight or words; otherwise the same as Space",
        _on(SEPARATION, CHECK),
        _on(CHECK),
        "Enter",
        {CHECK: ("Type", "Type the marked reading in any unit, or open its list")},
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
    Command("typed_check", "", "Typed check", "Write down readings of another day, typed", _on(STACK, CHECK)),
    Command(
        "separate", "s", "Separate", "Separate a tray from its worms, step by step", _on(STACK), _on(STACK)
    ),
    Command(
        "turn", "t", "Turn", "See what every tray becomes, and write down the turn", _on(STACK), _on(STACK)
    ),
    Command("feed_by_form", "", "Feed by form", "Type a feeding, also of a past day", _on(STACK, FEED)),
    Command(
        "start",
        "a",
        "Add tray",
        "Put a tray with fresh bedding on the stack",
        _on(STACK, FEED, FOUND, LOTS),
        _on(FEED, FOUND, LOTS),
        here={
            FEED: ("Add", "Add an ingredient by a few letters of its name"),
            LOTS: ("Begin", "Begin a lot by hand: castings taken before, or from elsewhere"),
            FOUND: ("Add", "Write down one found that does not belong"),
        },
    ),
    Command("begin", "", "Starting", "What a new bin begins with, step by step", _on(STACK)),
    Command("worms", "w", "Worms", "Write down worms put in, taken out or moved", _on(STACK)),
    Command("split", "", "Split", "Move worms, or a tray with them, to another bin", _on(BINS, STACK)),
    Command("supplies", "p", "Supplies", "What is in stock, and what the next turn needs", _on(STACK)),
    Command("past", "l", "Past year", "The past year, week by week", _on(BINS, STACK)),
    Command(
        "castings", "1", "Castings", "Castings in tubs and jars, and what comes next for them", _on(STACK)
    ),
    Command("compare", "4", "Compare", "How many trays, how often to turn: side by side", _on(STACK)),
    Command("ledger", "2", "Ledger", "Castings made against what went in, turn by turn", _on(STACK)),
    Command("outlook", "3", "Outlook", "What the bin will do, fitted to its own record", _on(STACK)),
    Command("ledgers", "", "Ledger", "Castings of all bins against what went in", _on(BINS)),
    Command("found", "", "Found", "Pieces that go round again, and what does not belong", _on(STACK, LEDGER)),
    Command("founds", "", "Found", "What goes round and does not belong, in all bins", _on(BINS)),
    Command(
        "note",
        "i",
        "Note",
        "Write a note",
        _on(STACK, JOURNAL, FEED),
        _on(JOURNAL),
        here={FEED: ("Note", "A note to keep with this meal")},
    ),
    Command(
        "journal", "j", "Journal", "Everything written down, newest first", _on(STACK, SEPARATION, CHECK)
    ),
    Command(
        "put_right",
        "o",
        "Put right",
        "Find what is wrong from what you see, and what to do about it",
        _on(STACK, CHECK),
        _on(STACK, CHECK),
    ),
    Command(
        "filter_tray",
        "v",
        "Tray",
        "Show one tray after another",
        _on(JOURNAL, PUT_RIGHT, FEED, CHECK, SEPARATION, OUTLOOK, COMPARE, TURN_DAY),
        _on(JOURNAL, PUT_RIGHT, CHECK, OUTLOOK, COMPARE),
        here={
            COMPARE: ("Aim", "What you want most: castings, little work, worms, all your scraps"),
            TURN_DAY: ("Tray", "Mark the next tray, to move it with + and -"),
            SEPARATION: ("Next tray", "Go to the separation that needs hands next, in whatever bin"),
            OUTLOOK: ("Tray", "The moisture of one tray after another"),
            FEED: ("Tray", "Feed another tray with this meal"),
            CHECK: ("Tray", "The next tray, and after the last one the whole bin"),
        },
    ),
    Command(
        "filter_kind",
        "g",
        "Kind",
        "Show one kind of entry after another",
        _on(JOURNAL, FEED, TURN_DAY, OUTLOOK, COMPARE, LEDGER, LOTS),
        _on(JOURNAL, FEED, TURN_DAY, OUTLOOK, COMPARE, LEDGER, LOTS),
        here={
            LOTS: ("Other", "Anything else done with it: another stage, given away"),
            OUTLOOK: ("What if", "One what-if after another; after the last, as planned"),
            LEDGER: ("Forecasts", "What had been forecast of each harvest, beside what came"),
            COMPARE: ("Scraps", "Amounts of scraps side by side, or trays and turns again"),
            TURN_DAY: ("Stage", "Another stage for the marked tray; after the last, separated"),
            FEED: ("Meal", "Another meal: last time's, the caddy's, or one you kept"),
        },
    ),
    Command("new", "n", "New bin", "Make a profile for another bin", _on(BINS), _on(BINS)),
    Command(
        "change",
        "r",
        "Change",
        "Another name for the marked bin, or other figures of it",
        _on(BINS),
        _on(BINS),
    ),
    Command("copy", "y", "Copy", "Copy the marked bin, to try things out on", _on(BINS), _on(BINS)),
    Command(
        "archive",
        "x",
        "Archive",
        "Put the marked bin away; its file is kept",
        _on(BINS, FEED, TURN_DAY),
        _on(BINS, FEED, TURN_DAY),
        here={
            TURN_DAY: ("In or out", "Leave the fresh tray out, or bring it in after all"),
            FEED: ("Out", "Take the marked line out of the meal"),
        },
    ),
    Command(
        "back",
        "b",
        "Back",
        "Go back one step",
        _on(SEPARATION, PUT_RIGHT, TURN_DAY, TURN_RUN),
        _on(SEPARATION, PUT_RIGHT, TURN_RUN),
        here={TURN_DAY: ("As usual", "Back to the plan by the pattern")},
    ),
    Command(
        "more",
        "plus,equals_sign,right",
        "More",
        "More time, or more of what is marked; a week later",
        _on(SEPARATION, SUPPLIES, PAST, DUE, FEED, CHECK, TURN_DAY, TURN_RUN, OUTLOOK, LOTS),
        _on(SUPPLIES, DUE, FEED, CHECK, OUTLOOK, LOTS),
        "+",
        {
            LOTS: ("Fill", "Jars or bags filled with castings of the marked lot"),
            OUTLOOK: ("Longer", "What-if: longer, or more of it"),
            TURN_DAY: ("Up", "The marked tray one level up; more of what is marked"),
            DUE: ("Later", "Put what is marked off by a day; again, by one more"),
            FEED: ("More", "More of what is marked; of none, as much as last time"),
        },
    ),
    Command(
        "less",
        "minus,left",
        "Less",
        "Less time, or less of what is marked; a week earlier",
        _on(SEPARATION, SUPPLIES, PAST, DUE, FEED, CHECK, TURN_DAY, TURN_RUN, OUTLOOK, LOTS),
        _on(SUPPLIES, DUE, FEED, CHECK, OUTLOOK, LOTS),
        "-",
        {
            LOTS: ("Use", "Castings of the marked lot used, and what so much mix takes"),
            OUTLOOK: ("Shorter", "What-if: shorter, or less of it"),
            TURN_DAY: ("Down", "The marked tray one level down; less of what is marked"),
            DUE: ("Earlier", "Take a day of putting off back"),
            FEED: ("Less", "Less of what is marked"),
        },
    ),
    Command(
        "next_bin", "down", "Next bin", "Show the next bin, or all of them", _on(PAST), _on(PAST), "Down"
    ),
    Command("last_bin", "up", "Bin before", "Show the bin before, or all of them", _on(PAST)),
    Command(
        "end",
        "e",
        "End now",
        "End the rest or the loosening now",
        _on(SEPARATION, DUE, TURN_DAY, TURN_RUN),
        _on(SEPARATION, DUE, TURN_DAY, TURN_RUN),
        here={
            TURN_RUN: ("Leave out", "Leave this task undone and go on"),
            TURN_DAY: ("Was done", "Write the turn down at once: it was done without the guide"),
            DUE: ("Done", "Mark it done; a feeding or a check is done by writing it down"),
        },
    ),
    Command(
        "put_back",
        "z",
        "Put back",
        "Give up: the tray goes back to its level",
        _on(SEPARATION, TURN_RUN),
        here={TURN_RUN: ("Give up", "Give the turn day up as it stands")},
    ),
    Command("hush", "m", "Hush", "Silence the bell of a rest that is over", EVERYWHERE),
    Command(
        "undo",
        "u",
        "Undo",
        "Take back the last entry",
        _on(
            STACK,
            JOURNAL,
            BINS,
            SEPARATION,
            BEGIN,
            SUPPLIES,
            DUE,
            PUT_RIGHT,
            CHECK,
            FOUND,
            LOTS,
            TURN_DAY,
            TURN_RUN,
        ),
        _on(JOURNAL, SUPPLIES, DUE, PUT_RIGHT, FOUND, LOTS),
    ),
    Command(
        "due",
        "d",
        "Due",
        "All that is due, in order, and which bin is next",
        _on(BINS, STACK, DUE),
        _on(BINS, STACK, DUE),
        here={DUE: ("One or all", "Only the bin of the marked line, or all bins again")},
    ),
    Command(
        "cautions",
        "c",
        "Cautions",
        "Read the cautions, with their reasons",
        _on(BINS, STACK, SEPARATION, BEGIN, SUPPLIES, DUE, PUT_RIGHT, FEED, CHECK, LOTS, TURN_DAY, TURN_RUN),
        _on(BEGIN),
    ),
    Command("search", "tab", "Search", "Type words to find a page by", _on(HANDBOOK), _on(HANDBOOK), "Tab"),
    Command(
        "handbook",
        "h",
        "Handbook",
        "Look up what is marked; in the handbook, see all its pages",
        EVERYWHERE,
        EVERYWHERE - _on(STACK, DUE, FEED, CHECK, TURN_DAY, LOTS),
    ),
    Command(
        "leave",
        "escape",
        "Leave",
        "Leave this screen; its place is kept",
        EVERYWHERE - _on(BINS),
        _on(
            SEPARATION,
            TURN_DAY,
            TURN_RUN,
            JOURNAL,
            CAUTIONS,
            BEGIN,
            SUPPLIES,
            PAST,
            DUE,
            PUT_RIGHT,
            HANDBOOK,
            FEED,
            CHECK,
        )
        | _on(LEDGER, FOUND, LOTS, OUTLOOK, COMPARE),
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
    return (command.on(screen) for command in COMMANDS if screen in command.where)


def bindings(screen: str) -> list[BindingType]:
    """The keys of a screen."""
    return [command.binding(screen) for command in commands_of(screen) if command.keys]
