/** Words of the tape test: how it is made, how it is photographed, what is asked beside the class. */
import type { ProposedCut } from "../../core/rating/proposed-cut.ts";
import { tapePullS } from "../../core/rating/tape-pull.ts";
import type { TapeParting } from "../../core/trial/tape-test.ts";

export const tapeTestText = {
  how: "How to cut and pull",
  standards:
    "Films up to 125 µm: a lattice, 1 mm apart up to 50 µm (11 cuts each way), 2 mm above it (6 cuts). ISO 2409 takes 6 cuts always: 1 mm to 60 µm on steel, 2 mm to 120, 3 mm to 250. Thicker films: an X, or a lattice 5 mm apart where you agree on it. (ASTM D3359 and ISO 2409, read in secondary copies; beyond 125 µm from memory.)",
  steps: [
    "The film has cured as its sheet says. Lay the coupon on something firm, away from its edges and holes.",
    "Cut through to the steel in one stroke, along a steel rule, with a new blade: about 20 mm long. For an X two cuts of 40 mm whose neighbouring ends lie 13 mm apart.",
    "Brush the dust off and take the photograph before the pull: close, straight above, the cut in the middle.",
    "Throw away two laps of the roll. Lay 75 mm of tape over the cut, rub it down with an eraser until its colour is even, and start the clock.",
    `Pull ${tapePullS.from} to ${tapePullS.to} s later: quickly, not jerked, back on itself as flat as you can. (90 ± 30 s: ASTM D3359, secondary copy.)`,
    "Choose the drawing that comes nearest. Then take the photograph after the pull, in the same light.",
  ],
  cautions:
    "The blade moves away from your fingers, and the coupon is held by a stop, not by a hand. Paint dust and solvents: the supplier's safety data sheet says what to wear. Used blades go into a sharps tin.",
  clockStart: "Tape is down: start the clock",
  clockAgain: "Start again",
  clock: (seconds: number) =>
    seconds < tapePullS.from
      ? `${seconds} s. Wait until ${tapePullS.from} s.`
      : seconds <= tapePullS.to
        ? `${seconds} s. Pull now.`
        : `${seconds} s. More than ${tapePullS.to} s: put a new piece of tape on.`,
  proposal: ({ d3359, iso2409 }: ProposedCut) =>
    `For this film: ${d3359.form === "x-cut" ? "an X" : `${d3359.cuts} cuts each way, ${d3359.spacingMm} mm apart`} by ASTM D3359; ${
      iso2409
        ? `${iso2409.cuts} cuts each way, ${iso2409.spacingMm} mm apart, by ISO 2409 on steel`
        : "too thick for ISO 2409"
    }. (Secondary copies; cut otherwise if that is what you agreed on.)`,
  takeProposal: "Cut as D3359 asks",
  spacing: "Cuts",
  spacings: {
    "1": "1 mm apart, 11 each way",
    "2": "2 mm apart, 6 each way",
    "3": "3 mm apart, 6 each way",
    "5": "5 mm apart, 6 each way",
  },
  drawn: (tapeClass: string, iso: string) => `${tapeClass}, ${iso}`,
  photos: "Photographs",
  before: "Before the pull",
  after: "After the pull",
  take: (which: "before" | "after") => `Photograph ${which} the pull`,
  another: "Another photograph",
  corners: {
    B: "Rings 1 to 4 onto the corners of the lattice: where its outer cuts cross, 1 at the top left, clockwise.",
    A: "Rings 1 to 4 onto the four ends of the X, clockwise; from 1 to 2 along its long side.",
  },
  read: "Read the photographs",
  reading: "Reading the photographs",
  later:
    "The shop is out of reach. Set the rings, choose a drawing and write the test down: your eye's class stands, and the photographs will be read when the shop is reached.",
  eyeFirst: "Choose a drawing first: your eye's class is kept beside the photographs', and must not be led by it.",
  readSentence: (percent: number, tapeClass: string, iso: string) =>
    `${percent.toFixed(1)} % came off: class ${tapeClass}, ${iso}.`,
  span: (from: number, to: number) =>
    `Probably between ${from.toFixed(1)} and ${to.toFixed(1)} %: of 108 drawn pairs of known removal 105 were read this near.`,
  between: (tapeClass: string, other: string) =>
    `Near a limit: ${tapeClass} as read, but it could be ${other}. Compare the outline with the drawings of both.`,
  cancel: "Stop reading",
  iso: { A: (n: number) => `ISO 16276-2 class ${n}`, B: (n: number) => `ISO 2409 class ${n}` },
  eyeSaid: (tapeClass: string) => `Your eye said ${tapeClass}.`,
  counts: "Which class counts",
  countsPhoto: "the photographs'",
  countsEye: "my eye's: the outline is wrong",
  mapLabel: "What came off of each part, in percent",
  overlayAlt: "The cut after the pull, what came off outlined",
  tape: "Tape",
  tapeHint: "Its kind and roll, in your own words.",
  qualified: "Its pull strength is known to be what the standard asks for",
  unqualified: "Not known: then the class holds for comparisons only, and findings say so.",
  parted: "Where the film parted",
  partings: {
    "primer from coating": "primer from the coating",
    "within the primer": "within the primer",
    "within the coating": "within the coating (grey on tape and steel alike)",
    "coating from steel": "coating from the steel",
    "not seen": "could not be seen",
  } satisfies Record<TapeParting, string>,
  noNumber: "Not a number.",
  paintedWrong: "The film thickness, or a number under “What was painted”, cannot be read.",
  painted: "What was painted",
  primer: "Primer or paint",
  passes: "Passes",
  steelTemp: "Steel when painted",
  flash: "Flash between passes",
  cure: "Cured for",
  thickness: "Film thickness",
} as const;
