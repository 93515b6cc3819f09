#include "rules/explain.h"

#include <string.h>

/* What the pages of the accounts' limits have in common. */
#define LIMIT_SOURCE \
    "The limit's own line names its source, or says common practice. The message repeats it."
#define OVER_MEND                                                                                \
    "Take out or shorten the lines listed below the finding, the largest first, or move one of " \
    "them to "                                                                                   \
    "another week. Where the limit is wrong for this club, change it in the club's own limits."
#define UNDER_MEND                                                                              \
    "Add to a day that has room for it, or lower the floor in the club's own limits. In weeks " \
    "cut by the "                                                                               \
    "start or end of a camp, a bout or the recovery after it, a floor is pro-rated or off "     \
    "already."
#define UNDER_WHY                                                                                  \
    "What is planned too rarely does little. A floor is an opinion about how often that is, so a " \
    "plan "                                                                                        \
    "below it gets a warning and does not fail."

static const struct explanation pages[] = {
    {"hold-broken",
     "An athlete with `hold head` is placed in sparring or contact, or has an exercise that works "
     "the "
     "neck, on a day when the hold is in force. It reaches into every camp and squad of that "
     "athlete.",
     "With a suspected concussion no blow and no load on the neck is worth anything. How long it "
     "lasts is for the commission's rules and a physician to say; the program never does.",
     "The rule is the club's own caution, as rule sets and federations ask for it in different "
     "words; "
     "no figure is taken from any of them.",
     "Take the athlete out of the line, or give another activity with `for`. The hold ends with "
     "two "
     "entries: the stage reached, and who ended it on which day. It cannot be waived."},
    {"hold-entry", "One of the two entries that end a hold has a date that is still to come.",
     "An entry says what has happened. A date ahead of today would end the hold by the calendar, "
     "which nobody may. How long it lasts is for the commission's rules and a physician to say.",
     "A rule of this notation; no outside source is needed for it.",
     "Make the entry on the day when it is true. Today is the machine's date, or the one given by "
     "`--date`."},
    {"avoid-broken",
     "A line asks for something that a standing restriction of the athlete rules out: the exercise "
     "itself or one of its easier and harder forms, a pattern, a body region worked at half a "
     "share or "
     "more, a position, or all-out effort.",
     "The restriction was set by somebody who knows why. The plan does not carry the reason and "
     "need "
     "not: it only has to keep to it.",
     "The restriction itself is the source; half a share as the border is common practice.",
     "Give the athlete another exercise with `for NAME, EXERCISE` below the line. What the "
     "restriction's "
     "`can do` names stays allowed. It ends only by `ended by WHO on DATE`, and cannot be waived."},
    {"review-due", "The day on which a restriction was to be looked at again has come.",
     "A restriction never lapses by itself. Without a reminder it stays for ever, or is forgotten.",
     "The date is the coach's own.",
     "Have it looked at, then set a new `review on`, or end it with `ended by WHO on DATE`."},
    {"kit-missing",
     "An exercise needs kit that the athlete's gym does not list, or more of it than there is. A "
     "wall "
     "and a training partner are taken to be everywhere.",
     "What is not there cannot be lifted, and it shows on the day of training unless it shows "
     "here.",
     "The gym's own list.",
     "Add the kit to the gym if it is there, or write `without KIT, EXERCISE` below the line; "
     "where the "
     "exercise declares a substitute, the finding names it."},
    {"substituted",
     "An athlete does another exercise than the one that stands in the line: the gym lacks kit for "
     "it, or it is barred for this athlete and another was named to take its place. It is told "
     "once for each athlete and exercise. A load goes over only where both are loaded with the "
     "same things and mean the same by a kilogram; else the line's effort holds alone.",
     "What the sheet says is then not what the session says, and a coach who was not told finds "
     "out on the floor.",
     "Common practice, no source.",
     "Say below the line what is done, `for NAME, EXERCISE` or `without KIT, EXERCISE`, or mend "
     "the gym's list. What was named below a restriction is told as information only."},
    {"kit-twice",
     "Two exercises of one superset, contrast, complex or circuit need the same bar, landmine or "
     "sled "
     "with another load, and the gym has fewer than that. Bars are told apart by their mass: the one "
     "light bar cannot be 15 and 17.5 kg at once. Where another bar makes the same load, the sheet "
     "names that one.",
     "Nobody changes the plates between the two halves of a pair: the pause grows and the pair is "
     "lost.",
     "The gym's own list. A bench or a rack can be shared by one athlete and is not counted.",
     "Give both exercises the same load, use another implement for one of them, or put them into "
     "blocks "
     "of their own."},
    {"discs-short",
     "Two bars that stand loaded at the same time want more discs of one size than the gym has.",
     "Each load can be built by itself, so only the pair shows it.",
     "The gym's own list of plates.",
     "Change one of the loads by a step, or put the exercises into blocks of their own."},

    {"sparring-over",
     "Rounds or minutes of sparring in a week, a phase or a camp are above the limit. Rounds count "
     "for "
     "every activity that is sparring; sparring placed in minutes is named as not counted in "
     "rounds.",
     "Sparring costs the head and the hands more than any other hour, and it grows by itself in "
     "the "
     "weeks before a bout.",
     LIMIT_SOURCE, OVER_MEND},
    {"strikes-over",
     "Strikes, all of them or those marked all-out, are above the limit, on one side where the "
     "limit "
     "says `a side`. Each limb of a combination counts. Pads, sparring and timed rounds are not "
     "counted "
     "one by one: where the week has such minutes the message names them, and the check only "
     "warns.",
     "Full blows add up in wrists, elbows and shoulders, on the side that throws more of them.",
     LIMIT_SOURCE, OVER_MEND},
    {"contacts-over",
     "Landings of jumps and hops are above the limit. Those with a skipping rope are an account of "
     "their own.",
     "Shins, knees and Achilles tendons take each landing, and get used to them slowly.",
     LIMIT_SOURCE
     " The usual teaching is 80 to 100 a session for beginners, and 100 to 120 and 120 to "
     "140 for those further on; the last two are quoted from memory.",
     OVER_MEND},
    {"lifts-over",
     "Repetitions of strength work are above the limit: all, those of one intensity zone, or the "
     "heavy "
     "ones, which are at 80 % and up or at RPE 8 and up.",
     "Heavy repetitions are what the rest of a fighter's week has to be recovered from.",
     LIMIT_SOURCE, OVER_MEND},
    {"throws-over", "Repetitions of throws are above the limit.",
     "Throws at full speed tire the shoulder and the trunk long before they feel heavy.",
     LIMIT_SOURCE, OVER_MEND},
    {"time-over",
     "A session, week, phase or camp takes longer than the limit. Rests, changes of station and "
     "warm-up "
     "sets are counted. In a session 5 % over the limit are let pass.",
     "A plan that does not fit the hour is cut on the spot, mostly from its end.",
     LIMIT_SOURCE " The 5 % are common practice.", OVER_MEND},
    {"rounds-over", "Rounds on the clock, or on the bag, are above the limit.",
     "Rounds are easy to add and hard to see as a sum when they stand in several sessions.",
     LIMIT_SOURCE, OVER_MEND},
    {"holds-over", "Seconds of holding still are above the limit, each side and each way counted.",
     "Long holds tire without looking like work.", LIMIT_SOURCE, OVER_MEND},
    {"distance-over", "Metres that the doses ask for are above the limit.",
     "Carries, sleds and runs add up over a week beside everything else that the legs do.",
     LIMIT_SOURCE, OVER_MEND},
    {"tonnage-over",
     "Sets times repetitions times kilograms are above the limit. A load for each hand counts "
     "both.",
     "Tonnage is a coarse measure, yet a sudden jump of it is rarely meant.", LIMIT_SOURCE,
     OVER_MEND},
    {"load-over",
     "Session load, which is the effort of the whole session times its minutes, is above the "
     "limit.",
     "It is the one figure in which mat, ring and weight room meet.",
     LIMIT_SOURCE " The measure: Foster et al. 2001, J Strength Cond Res 15:109-115.", OVER_MEND},
    {"sets-over",
     "Sets of a pattern, a body region or a kind of work are above the limit. A region counts each "
     "set by "
     "the share that the exercise declares for it.",
     "A coach who sets a ceiling on sets has a reason: time, soreness, or what else the week "
     "holds. No "
     "agreed upper bound exists in print.",
     LIMIT_SOURCE " Counting by shares: Pelland et al. 2024, preprint.", OVER_MEND},
    {"sessions-over", "Sessions, or sessions that hold some kind of work, are above the limit.",
     "Two hard sessions too many are a week without a day to recover.", LIMIT_SOURCE, OVER_MEND},
    {"session-too-long",
     "A session takes more than 5 % longer than its own `under` says. It is told once, on the day "
     "when it "
     "is longest.",
     "The session itself promises the time, so the sheet on the wall would be wrong.",
     "The session's own line; the 5 % are common practice.",
     "Shorten the block listed first, give it fewer sets or less rest, or move it to another day. "
     "Neck and "
     "shoulder care are not the place to save time."},
    {"load-rise",
     "A week's session load is above the highest of the four weeks before it by more than the "
     "limit. A "
     "deload in between makes no rise. The weeks before it count as they came to be where logs tell, "
     "and those that are not fully counted keep the check quiet.",
     "Loads that jump leave no time to get used to them. The figure is an opinion, and the ratio "
     "of new to "
     "old load is not used: it is disputed (Impellizzeri et al. 2020; Lolli et al. 2019).",
     LIMIT_SOURCE " The measure: Foster et al. 2001, J Strength Cond Res 15:109-115.",
     "Shorten or ease the sessions listed, or spread the rise over two weeks."},

    {"hours-overlap",
     "Something of an athlete starts while something else of the same athlete goes on, in one camp or in two. Of a "
     "session's time, which is worked out, 5 % are let pass. Where one of the two may be left out, it is a warning.",
     "Nobody is in two places at once. On the day one of the two is cut short or done in a hurry.",
     "No source is needed: the times are the plan's own.",
     "Give one of them another hour, make one shorter, or clear it on that day with `off`."},
    {"legs-before-sparring",
     "Heavy squats, hinges or lunges, or slow lowering that the athlete does not know yet, end "
     "less than "
     "36 h before hard sparring (RPE 7 and up) starts. Without clock times of both, whole days count, as they do "
     "before a bout: the day before is too close.",
     "Tired legs move late, and late is what gets hit. Heavy work is felt past the next day.",
     "Common practice, no source.",
     "Move the legs to the day after, or make the sparring light. A limit on `hours from heavy "
     "legs to "
     "sparring` sets another figure."},
    {"neck-before-sparring",
     "Neck work ends less than two hours before sparring. It is only told where both have a clock "
     "time.",
     "A tired neck brakes the head less.", "Common practice, no source.",
     "Put the neck work behind the sparring or on another day. A limit on `hours from neck work to "
     "sparring` sets another figure."},
    {"heavy-days-close",
     "From the end of a session with heavy lifts of one pattern (80 % or RPE 8 and up) to the start of the next, on "
     "another day, are less than 46 h by the clock where both have one, else less than two days.",
     "The same heavy lift again comes before the first has done its work.",
     "The usual teaching is 48 to 72 hours from session to session, quoted from memory; two hours are taken off for "
     "the session itself.",
     "Move one of the days, or make one of them light. A limit on `hours between heavy days` sets "
     "another "
     "figure."},
    {"intensity-outside",
     "Strength work is done outside the percentages that the phase's limit allows: one set above "
     "the band, "
     "or no set of the line that reaches it. Lighter sets on the way up do not count.",
     "A phase is its intensity more than its name.", LIMIT_SOURCE,
     "Change the percentage, or move the line into a phase that it fits."},
    {"reps-outside",
     "Strength work has more repetitions in a set than the phase's limit allows, or no set with as "
     "many as "
     "it asks for.",
     "Repetitions steer what a set trains; a phase that asks for five and gets fifteen trains "
     "something "
     "else.",
     LIMIT_SOURCE, "Change the dose, or move the line into a phase that it fits."},
    {"reps-exceed-load",
     "A dose has more repetitions than a load of that percentage commonly allows: more than three "
     "above the "
     "table is a warning, less is information. Clusters are skipped.",
     "Either the percentage or the best behind it is wrong, or the set will not be finished.",
     "Haff and Triplett 2016, NSCA Essentials of Strength Training and Conditioning, 4th ed., ch. "
     "17, quoted "
     "from memory. People vary widely: 6 to 26 repetitions were seen at 70 % in the squat (J "
     "Strength Cond "
     "Res 35(2), 2021).",
     "Take fewer repetitions or a lower percentage, or write a newer best."},
    {"first-weeks-effort",
     "A novice's new exercise asks for more than RPE 7 in its first two weeks. An exercise with a "
     "best from "
     "before is not new. A limit on `effort` for the first weeks of an exercise sets other "
     "figures, and "
     "holds for whom it names.",
     "The first weeks are for the movement; effort hides faults.", "Common practice, no source.",
     "Lower the effort for the first weeks: `for novice : DOSE @ RPE 6` below the line."},
    {"pair-same-region",
     "Two partners of a superset both load one body region at half a share or more, and both are "
     "hard: RPE 7 "
     "and up, or no more than three repetitions left at that load.",
     "A superset saves time because one part rests while the other works. Here nothing rests.",
     "Common practice, no source.",
     "Pair it with another region or pattern, or write two straight blocks."},
    {"contrast-not-heavy",
     "The first part of a contrast is known to be below 75 % and below RPE 8.",
     "The heavy part is there to wake up the fast one. Light work does not.",
     "Common practice, no source.",
     "Raise the first part to what the athlete can do well, or call the block a superset."},
    {"contrast-not-explosive",
     "The second part of a contrast is no throw, jump, strike or power work. Where it is, but "
     "drives with "
     "other limbs than the heavy part, that is told as information.",
     "What the heavy part prepares has to be fast, and done by the same limbs.",
     "Common practice, no source.",
     "Put fast work of a related pattern second: squat and jump, press and throw."},
    {"grip-before-hands",
     "Grip work, or a maximal hold of 20 s and longer with arm or shoulder, comes right before "
     "throws or hand "
     "strikes.",
     "A tired hand is slow and closes late.", "Common practice, no source.",
     "Put the fast work first, or something for the legs in between."},
    {"skill-after-work",
     "A skill that the athlete meets in its first week comes after work at RPE 9 and up in the "
     "same session.",
     "New movement is learned with a fresh head and fresh legs.", "Common practice, no source.",
     "Put the new skill first."},
    {"filler-loads-round",
     "A filler in the rests loads a body region at half a share or more that the round loads as "
     "well.",
     "The rests between rounds are short, mostly 30 to 60 s, and belong to the round.",
     "Common practice, no source.", "Take a filler for another region, or mobility."},
    {"filler-too-long", "The fillers take longer than the rest that they are to fit in.",
     "What does not fit is left out, or eats into the round.", "The block's own rest.",
     "Shorten the filler or lengthen the rest."},
    {"tempo-on-fast-work", "A throw, strike, jump or power exercise has a tempo.",
     "It is done as fast as possible; there is nothing to count.",
     "Follows from what the words mean.", "Leave the tempo out."},
    {"kilograms-open",
     "A load is given in kilograms and the exercise does not say what they mean: one hand or both, "
     "the plates "
     "or the bar with them.",
     "Twenty kilograms can be twenty or forty, and the sheet cannot show how to load it.",
     "Follows from what the words mean.",
     "Add a line `weigh one hand`, or whichever it is, to the exercise."},
    {"best-old",
     "A percentage is taken from a best that is more than 8 weeks old: information, and a warning "
     "from 12 weeks "
     "at 85 % and up.",
     "Eight weeks of training or of none move a best by more than a plate.",
     "Common practice, no source.",
     "Test again, or write the best of a good day. A limit on `age of a best` sets another "
     "figure."},
    {"contrast-rest-short",
     "Neither the gap between the two parts of a contrast nor the rest between its sets is three "
     "minutes. It is "
     "information and never more.",
     "The evidence is about the time between the heavy and the fast part: pooled effects were "
     "largest after 3 to "
     "10 minutes. Short gaps are common in gyms all the same, and one review found no effect of "
     "the rest.",
     "Wilson et al. 2013, J Strength Cond Res 27:854-859; Seitz and Haff 2016; against them Dobbs "
     "et al. 2019.",
     "Lengthen the rest where there is time for it."},
    {"wraps-on", "Bag work follows a lift in the same block with less than a minute between them.",
     "Hands are not wrapped in a change-over.", "Common practice, no source.",
     "Wraps on before the lift; the sheet says so."},

    {"sessions-under",
     "Sessions, or sessions that hold some kind of work, are fewer than the limit asks for. It is "
     "off in the "
     "week of a bout.",
     UNDER_WHY, LIMIT_SOURCE, UNDER_MEND},
    {"sets-under",
     "Sets of a pattern, a body region or a kind of work are fewer than the limit asks for. A "
     "region counts each "
     "set by the share that the exercise declares for it.",
     UNDER_WHY, LIMIT_SOURCE " Counting by shares: Pelland et al. 2024, preprint.", UNDER_MEND},
    {"sparring-under", "Sparring is less than the limit asks for.", UNDER_WHY, LIMIT_SOURCE,
     "Lower the floor in the club's own limits, or place a round where the week has room. Nothing "
     "in the program "
     "proposes more sparring."},
    {"strikes-under", "Strikes that the doses count are fewer than the limit asks for.", UNDER_WHY,
     LIMIT_SOURCE, UNDER_MEND},
    {"contacts-under", "Landings of jumps and hops are fewer than the limit asks for.", UNDER_WHY,
     LIMIT_SOURCE, UNDER_MEND},
    {"lifts-under", "Repetitions of strength work are fewer than the limit asks for.", UNDER_WHY,
     LIMIT_SOURCE, UNDER_MEND},
    {"throws-under", "Repetitions of throws are fewer than the limit asks for.", UNDER_WHY,
     LIMIT_SOURCE, UNDER_MEND},
    {"time-under", "A session, week, phase or camp takes less time than the limit asks for.",
     UNDER_WHY, LIMIT_SOURCE, UNDER_MEND},
    {"rounds-under", "Rounds on the clock, or on the bag, are fewer than the limit asks for.",
     UNDER_WHY, LIMIT_SOURCE, UNDER_MEND},
    {"holds-under", "Seconds of holding still are fewer than the limit asks for.", UNDER_WHY,
     LIMIT_SOURCE, UNDER_MEND},
    {"distance-under", "Metres that the doses ask for are fewer than the limit asks for.",
     UNDER_WHY, LIMIT_SOURCE, UNDER_MEND},
    {"tonnage-under", "Sets times repetitions times kilograms are less than the limit asks for.",
     UNDER_WHY, LIMIT_SOURCE, UNDER_MEND},
    {"load-under",
     "Session load is less than the limit asks for; minutes without an effort are not in it.",
     UNDER_WHY, LIMIT_SOURCE, UNDER_MEND},
    {"ratio-outside",
     "One account is too small or too large beside another, as a limit like `pull sets at least "
     "1.2 to 1 push` "
     "says.",
     "Shoulders that only push get stiff in front; the proportion itself is an opinion.",
     LIMIT_SOURCE, "Add sets to the smaller account or take some from the larger."},
    {"strength-balance",
     "Over two weeks one side does more than 65 % of the repetitions of strength and power work of "
     "the hands, "
     "legs or hips. Each repetition is put on the limb that does it, in whichever stance.",
     "Fighters are lopsided by their trade, so the band is wide; beyond it the plan is mostly "
     "lopsided by "
     "mistake.",
     "Common practice, no source.",
     "Give the other side, or the other stance, more of the lines listed. A limit on `strength "
     "balance` sets "
     "another band."},
    {"strike-balance",
     "Over two weeks one side throws more than 65 % of the strikes of hands or legs that the doses "
     "count. It is "
     "information.",
     "A stance leads with one hand for good reasons; the coach may still want to see it.",
     "Common practice, no source.",
     "Nothing need be mended. A limit on `strike balance` sets another band."},

    {"taper-volume",
     "A phase with a limit on `volume` cuts the mean week by less or more than the band, against "
     "the peak week of "
     "the camp before it: by sets, by tonnage, and by session load where every session has an "
     "effort. Its last "
     "seven days are told beside the mean.",
     "Volume comes down before a bout while intensity stays, so that the work done can show.",
     LIMIT_SOURCE
     " The usual band of 41 to 60 %: Bosquet et al. 2007, Med Sci Sports Exerc 39:1358-1365, on "
     "endurance athletes mostly.",
     "Cut sets, not loads. Hard sparring is not the intensity that is to be kept."},
    {"phase-too-short",
     "A phase lasts fewer days than a limit on `days of a phase` asks for: by the house defaults seven, and four of a "
     "taper. What follows a bout is not held to it.",
     "In a few days nothing is trained that the phase is named after, and its limits say little.",
     LIMIT_SOURCE " Tapers from 4 days on: Mujika and Padilla 2003, Med Sci Sports Exerc 35:1182-1187, from memory. "
     "A week for every other phase is common practice.",
     "Make the phase longer, or leave it out and let its neighbour take up the days."},
    {"new-exercise-late",
     "A phase with a limit on `new exercises` holds exercises that the athlete meets there for the "
     "first time. "
     "Mobility and warm-up do not count.",
     "What is new makes sore, and the days before a bout are not the time.", LIMIT_SOURCE,
     "Take an exercise that the athlete knows."},
    {"lowering-late",
     "A phase with a limit on `lowering work` holds strength work that is lowered for four seconds "
     "or longer.",
     "Slow lowering makes sore for days.", LIMIT_SOURCE, "Leave the slow tempo out."},
    {"provisional",
     "Something is planned after a bout, and the bout's `result` or `medical check` is not "
     "entered. It is "
     "information before the bout and a warning once its day has passed.",
     "What comes next depends on how the bout went. Rule sets differ in how long they keep an "
     "athlete "
     "out, and a physician decides; the program gives no number of days.",
     "A rule of this program; ask the commission's own rules.",
     "Enter `result ... on DATE` and `medical check ... on DATE` below the bout. A plan made "
     "before is then "
     "looked at again."},
    {"age-group-missing",
     "A day of birth in a private file makes somebody under 18 who has sessions, and neither `age group` nor `born` "
     "stands in the plan.",
     "The list `under 18` holds wherever the plan tells the age group. A copy without the private file would hold this "
     "athlete to the limits of grown people.",
     "A rule of this program.", "Write `age group under 18` below the athlete in the plan. It says no more than that."},
    {"supervision",
     "Somebody under 18, by the `born` of the plan, has sessions. It is information for the coach "
     "alone "
     "and stands in no format for others.",
     "The young lift with a coach on the floor, with lighter limits and loads rounded down.",
     "Common practice; youth strength guidelines ask for qualified supervision.",
     "Nothing need be mended. `limits under 18` in the camp takes the lighter limits that come "
     "with the "
     "program."},
    {"mass-planned",
     "For somebody under 18, a body mass is entered for a day to come that is lower than the last "
     "one "
     "weighed. It is told to the coach alone, where the private file is at hand, and changes no "
     "verdict.",
     "A growing athlete has nothing to lose. The program gives no advice on weight.",
     "Common practice, no source.",
     "Take the entry out, and talk with a physician or a dietitian; the commission's rules come first."},
    {"mass-falling",
     "The mean body mass of the last seven days of weighing is more than 1.5 % below that of the "
     "seven days "
     "before, over three weighings at least. It is told to the coach alone, without the figures, "
     "where "
     "the private file is at hand, and changes no verdict.",
     "A fast fall is a matter for somebody who may advise on it, which the program does not.",
     "The weekly 1.5 % of the NCAA's wrestling weight rules; used here as the day to ask, no more.",
     "Talk with the athlete, and refer them to a physician or a dietitian; the commission's rules come "
     "first."},
    {"limit-never-holds",
     "A limit of the club's own stands below a heading that is no phase of any camp under these "
     "limits, "
     "and no lifting age, age or athlete either.",
     "A heading that is misspelt holds nothing, and looks as if it did.",
     "Follows from the plan itself.",
     "Write the phase as the camp does, or leave the heading out."},
    {"limit-loosened",
     "A set of limits allows more, or asks for less, than the set below it that it takes over.",
     "That may be just what is wanted; whoever reads the plan should see both.",
     "Both lines are named.", "Nothing need be mended."},
    {"session-never-placed", "A session is declared and stands in no week of any camp.",
     "Mostly its name is spelled otherwise in the camp, or its line was lost.",
     "Follows from the plan itself.", "Place it, or take it out."},
    {"allow-unknown", "An `allow` names a check that there is not, or one that cannot be waived.",
     "It would keep nothing quiet and look as if it did.", "Follows from the plan itself.",
     "Take the name from between the brackets at the end of the message that is meant."},
    {"allow-unused",
     "An `allow` keeps no finding quiet: what it was for is gone, never was there, or goes past the figure behind "
     "`up to` or `down to`.",
     "It would one day keep quiet what it was not written for.", "Follows from the plan itself.",
     "Leave the line out; where its figure is passed, mend what passes it."},
    {"more-warnings",
     "One athlete's week has more than five warnings, and on the screen the others are only counted. "
     "Reports in other formats have them all.",
     "A long list is not read. The checks that matter most come first.", "A rule of this program.",
     "Mend the five and check again, or see all with `--notes`."},
    {"floors-missed",
     "One athlete's week, phase or camp misses several floors, and the screen shows them as one table: what there is, "
     "how much it is to be, where that figure comes from, and the name of the check. Reports in other formats have "
     "each by itself.",
     "Floors are missed together, where a week is empty or new. A table is read at a glance.",
     "A rule of this program.",
     "Plan what is missing, or waive a row by its own name. `--notes` tells each in full."},
};

static const size_t page_count = sizeof pages / sizeof pages[0];

const struct explanation *explanation_find(const char *name)
{
    for (size_t i = 0; i < page_count; i++)
        if (strcmp(pages[i].name, name) == 0)
            return &pages[i];
    return NULL;
}

size_t explanation_count(void)
{
    return page_count;
}

const struct explanation *explanation_at(size_t index)
{
    return index < page_count ? &pages[index] : NULL;
}
