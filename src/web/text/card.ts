/** Words of the measuring card, on its page and on its print. */
export const cardText = {
  title: "Print a measuring card.",
  explain:
    "Lay the coupon on it, photograph the whole card from straight above: coupon, scale and light are then found by themselves. Print in black on plain white paper at 100 %, without fitting to the page, and glue it on something flat.",
  size: "Card, for coupons",
  upTo: (name: string, size: string) => `${name}, up to ${size}`,
  fits: (size: string, card: string) =>
    `This trial's coupons, ${size}, go on the ${card} card; faint corners show where.`,
  fitsNone: (size: string) => `This trial's coupons, ${size}, are too large for any card: set their corners by hand.`,
  paper: "Paper",
  print: "Print the card",
  save: "Save it as SVG",
  back: "Back to the trial",
  rulerTitle: "Did it come out to scale?",
  rulerExplain: "Measure the printed ruler once with a calliper or a good steel rule; the shop remembers it.",
  ruler: "The ruler's 100 mm measures",
  rulerKept: (mm: string) => `Kept: the ruler measures ${mm}. Every size measured by the card counts with it.`,
  rulerUnknown: "Not measured yet: the print counts as true to scale.",
  rulerWrong: "Write what the ruler measures, between 85 and 115 mm.",
  keepRuler: "Keep it",
  onPrint: {
    label: (name: string) => `Measuring card, ${name}: four markers round a white window`,
    name: (name: string) => `Measuring card, ${name}`,
    top: "top of the number",
    /** In lines short enough for the room between the markers of the smallest card. */
    acrossHint: ["A number that reads along the coupon's", "shorter side: its top to the left."],
    ruler: "100 mm when printed at 100 %",
  },
} as const;
