"""The cautions: short to read, each with its reason and the body that says so."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Caution:
    """One line of a checklist. The title has at most 34 characters and `to_do` at most 90."""

    code: str
    title: str
    to_do: str
    why: str
    source: str

    @property
    def story(self) -> list[str]:
        """All of it, line by line: what to do, why, and the source."""
        return [self.to_do, "", self.why, "", f"Source: {self.source}"]


CAUTIONS: tuple[Caution, ...] = (
    Caution(
        "grit_dust",
        "Grit dust: mask on, window open",
        "Wear a fitted N95 or FFP2 mask; damp the shells with a gentle sprinkle; let air move.",
        "Calcium carbonate dust irritates eyes, skin and airways. Workplace limits are for 8 hours; none "
        "is set for homes, so keep visible dust away from your face. The mask class is our suggestion.",
        "NIOSH Pocket Guide, calcium carbonate; NSW Health on damping and masks",
    ),
    Caution(
        "egg_allergy",
        "Egg allergy or asthma",
        "Do not grind or sieve shells; let someone else, or do without.",
        "Breathing egg protein has caused asthma in egg workers. Dried household shells were not studied,"
        " so this is to be on the safe side.",
        "Smith et al., Chest 1990;98:398-404; Boeniger et al., Appl Occup Environ Hyg 2001;16:660-70",
    ),
    Caution(
        "shell_germs",
        "Raw shells can carry germs",
        "Wash your hands and every surface the shells touched with soap and water.",
        "Droppings on a shell can carry Salmonella.",
        "foodsafety.gov (US); BC FoodSafe",
    ),
    Caution(
        "grinder",
        "Grinder: dry hands, unplug",
        "Dry hands, GFCI outlet, lid on. Unplug before opening, and let the dust settle.",
        "Near water a plug needs ground-fault protection, and an appliance not in use is unplugged. Dry "
        "hands and a settled jar are our own addition.",
        "Electrical Safety Foundation International (US)",
    ),
    Caution(
        "ammonia",
        "Ammonia: air the room first",
        "Stop feeding and air the room. Eyes or throat sting? Leave until it has cleared.",
        "Ammonia irritates. By two accounts it is smelt from about 5 or from about 20 parts in a million; "
        "the limit for a working day is 25. The nose grows used to it, so smell is no meter. What to do is "
        "our own advice.",
        "Minnesota Department of Agriculture, with NIOSH limits",
    ),
    Caution(
        "rodents",
        "Rats or mice: no dust",
        "Gloves on. Wet droppings with disinfectant and wipe up. Neither sweep nor vacuum.",
        "Breathing what rodents leave can make people ill. Where they stay, the pest rules of your place "
        "and a licensed pest controller come first.",
        "CDC, cleaning up after rodents",
    ),
    Caution(
        "flatworms",
        "Flatworms: no bare hands",
        "Gloves or a bag. Do not cut them: the pieces live on. Keep pets away.",
        "Hammerhead flatworms eat earthworms and carry a toxin that irritates the skin.",
        "Alabama Extension, Kesheimer, in a newspaper of 2023",
    ),
    Caution(
        "children",
        "Children and blades",
        "Stay with children, have them wash their hands, and lock grinder and blades away.",
        "First find out who is allergic, or catches infections easily.",
        "Cornell Composting, for schools; locking blades away is our own addition",
    ),
    Caution(
        "dust",
        "Do not breathe the dust",
        "Sprinkle dry castings gently, let air move, keep your face away. Fitted mask if dusty.",
        "Legionella longbeachae in compost is caught by breathing dust or droplets. Castings were not "
        "studied; they are treated alike. Fever or short breath in the next 10 days: see a doctor and "
        "mention compost.",
        "NSW Health 2018; WorkSafe Queensland; Public Health Scotland 2024",
    ),
    Caution(
        "mould",
        "Mould and weak immunity",
        "Weak immunity, or lung trouble? Ask your doctor first, or let someone else do it.",
        "Mould spores from soil and compost dust can make people with weak immunity, asthma or lung "
        "disease seriously ill. Anyone may fall ill after a cloud of mouldy dust.",
        "CDC, aspergillosis; Cornell Composting, health; Weber et al., Am J Ind Med 1993;24:365-74",
    ),
    Caution(
        "gloves",
        "Gloves on, hands off the face",
        "Wear gloves. Do not eat, drink or smoke until your hands are washed.",
        "Germs in compost also pass from hand to mouth. Pregnant keepers are asked to wear gloves for "
        "soil work.",
        "Public Health Scotland 2024; WorkSafe Queensland; INSPQ (Quebec)",
    ),
    Caution(
        "cuts",
        "Cuts covered",
        "Clean any cut with soap and water, and cover it before you start.",
        "Germs in soil, dust and manure get in through broken skin.",
        "CDC, tetanus; CDC, aspergillosis",
    ),
    Caution(
        "tetanus",
        "Tetanus protection",
        "Not sure your booster is up to date? Ask your doctor or nurse.",
        "Tetanus bacteria live in soil, dust and manure and get in through cuts and punctures. Adults are"
        " advised a booster every 10 years.",
        "CDC, About Tetanus, 2017",
    ),
    Caution(
        "hands",
        "Wash your hands",
        "Soap and water once the gloves are off, and before you take off a mask.",
        "A hand that held compost carries it to mouth and eyes.",
        "Southern Health (New Zealand), Legionnaires; NSW Health 2018",
    ),
    Caution(
        "lifting",
        "Lift close, do not twist",
        "Know its weight, clear the way, hold it close. Heavy or slippery? Two people.",
        "Reach, twist and a poor grip all lower what can be lifted, and gloves make a grip poor. Back "
        "trouble, or pregnant: ask a doctor what you may lift.",
        "NIOSH, Revised Lifting Equation, Publication 94-110, revised 2021",
    ),
    Caution(
        "no_waste",
        "No people's or pets' waste",
        "Feed nothing from people, dogs or cats, and nothing from sick animals.",
        "It can carry parasites and germs. In one trial roundworm eggs outlived 90 days of worm composting.",
        "Cornell Composting; US EPA; J Sustain Dev 2013;6(4)",
    ),
    Caution(
        "pests",
        "Meat, fish and dairy stay out",
        "Leave out meat, fish, dairy, fat and cooked food.",
        "Dairy, fats and meat draw rodents and flies; lists for home heaps leave out fish and cooked food"
        " too.",
        "US EPA; East Cambridgeshire District Council",
    ),
    Caution(
        "clean_bedding",
        "Clean bedding only",
        "Strip tape, labels and staples. No glossy, waxed, coated or grease-proof paper.",
        "Plastic pieces lowered the survival of composting worms in a trial, and food packaging is a main"
        " way PFAS get in.",
        "CAST 2025, doi 10.55003/cast.2025.261603; Ulster County RRA; US EPA 600/R-21/115, 2021",
    ),
    Caution(
        "weedkiller",
        "Hay, straw or manure used?",
        "Ask whether weedkiller was used. Grow a few beans in the castings before wider use.",
        "Aminopyralid, clopyralid and picloram stay active through animals and composting, and cripple "
        "beans and tomatoes.",
        "NC State Extension; UF/IFAS SS-AGR-415; Oregon State Extension",
    ),
    Caution(
        "not_sterile",
        "Castings are not sterile",
        "Keep castings off the parts you eat, wash home-grown food, and tell whoever gets them.",
        "A worm bin has no heat step: germs fall in number, and not reliably. Castings from manure: US "
        "organic farms wait 120 days before harvest where the crop touches soil, 90 where it does not.",
        "NC State Extension; Eastman et al., Compost Sci Util 2001;9:38-49; 7 CFR 205.203(c)(1)",
    ),
    Caution(
        "local_rules",
        "Local rules come first",
        "Ask your local authority before castings are given away, sold or spread elsewhere.",
        "Rules differ by place. Ohio asks for tested, labelled compost from registered sites; in Britain "
        "castings from kitchen waste for other land or for sale come under animal by-product rules.",
        "Ohio OAC 3745-560-320; GOV.UK, animal material in compost heaps",
    ),
    Caution(
        "claims",
        "Careful with claims",
        "Do not call castings sterile, heat-treated or organic unless a test or scheme says so.",
        "NC State Extension gives several days at 55 C (131 F) as what frees compost of germs; worm bins "
        "run cool. Selling as organic has rules of its own.",
        "NC State Extension; USDA NOP 5021",
    ),
)
