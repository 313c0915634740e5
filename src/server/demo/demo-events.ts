/** What was done to the demonstration's coupons before they went out: every step with its times, and what went wrong. */
import type { Application, ObservationBody, Plan, RouteStep } from "../../core/trial/trial-record.ts";

/** Minutes that a step takes in the invented shop, and its temperature; the rest are quick and cold. */
const minutesAndTemp: Record<string, { minutes: number; tempC: number | null }> = {
  "alkaline clean, 60 °C": { minutes: 10, tempC: 61 },
  "water break": { minutes: 1, tempC: null },
  "acid activation": { minutes: 2, tempC: 21 },
  "cold rinse": { minutes: 1, tempC: null },
  "manganese phosphate, 94-96 °C, 15 min": { minutes: 15, tempC: 95.1 },
  "hot rinse": { minutes: 2, tempC: 72 },
  "boil, 5 min": { minutes: 5, tempC: 100 },
  "emulsion oil, single dip": { minutes: 1, tempC: 22 },
  "water-displacing spray oil, one coupon at a time": { minutes: 1, tempC: 19 },
  "melted wax, one pot": { minutes: 4, tempC: 88 },
  "paste wax, wiped cold": { minutes: 3, tempC: 18 },
  "etch primer, two thin passes": { minutes: 6, tempC: 20 },
  "etch primer, three thin passes": { minutes: 9, tempC: 20 },
  "etch primer, one heavy pass": { minutes: 3, tempC: 20 },
};

/**
 * Each block is one morning's run down the line. A step done together is one application for the coupons of the block
 * that have it; the one pot of wax holds all its coupons at once, whatever their block.
 */
export function stepsDone(plan: Plan, coatedOn: string): Application[] {
  const blocks = [...new Set(plan.places.map((place) => place.block))];
  const done = blocks.flatMap((block, at) =>
    blockRun(plan, block, `${coatedOn}T${String(8 + 2 * at).padStart(2, "0")}:00:00Z`),
  );
  return [...done, ...onePotSteps(plan, `${coatedOn}T16:00:00Z`)];
}

const isOnePot = (step: RouteStep) => step.name.endsWith("one pot");

function blockRun(plan: Plan, block: string | null, begins: string): Application[] {
  const clock = clockFrom(begins);
  const stepNames = [
    ...new Set(
      plan.treatments.flatMap(({ route }) => (route ?? []).filter((step) => !isOnePot(step)).map((step) => step.name)),
    ),
  ];
  return stepNames.flatMap((step) => {
    const takers = plan.places.filter((place) => place.block === block && routeHas(plan, place.treatment, step));
    const together = plan.treatments.some(({ route }) =>
      route?.some((one) => one.name === step && one.treated === "together"),
    );
    const groups = together ? [takers] : takers.map((place) => [place]);
    return groups
      .filter((group) => group.length > 0)
      .map((group) =>
        clock.application(
          step,
          group.map((place) => place.coupon),
        ),
      );
  });
}

function onePotSteps(plan: Plan, begins: string): Application[] {
  const clock = clockFrom(begins);
  return plan.treatments.flatMap(({ name, route }) =>
    (route ?? []).filter(isOnePot).map((step) =>
      clock.application(
        step.name,
        plan.places.filter((place) => place.treatment === name).map((place) => place.coupon),
      ),
    ),
  );
}

function routeHas(plan: Plan, treatment: string, step: string): boolean {
  return plan.treatments.some((one) => one.name === treatment && one.route?.some((taken) => taken.name === step));
}

/** Steps one after the other with a minute between them: one pair of hands. */
function clockFrom(begins: string) {
  let now = Date.parse(begins);
  return {
    application(step: string, coupons: string[]): Application {
      const { minutes, tempC } = minutesAndTemp[step] ?? { minutes: 2, tempC: null };
      const startedAt = new Date(now).toISOString();
      now += minutes * 60_000;
      const endedAt = new Date(now).toISOString();
      now += 60_000;
      return { kind: "application", step, coupons, startedAt, endedAt, tempC, note: "" };
    },
  };
}

/** Two deviations: one that counts, one that is only paperwork. */
export function whatWentWrong(plan: Plan): ObservationBody[] {
  const couponOf = (treatment: string) => plan.places.find((place) => place.treatment === treatment)?.coupon;
  const gripped = couponOf("phosphate, dry");
  const relabelled = couponOf("phosphate + spray oil");
  return [
    ...(gripped
      ? [
          {
            kind: "deviation" as const,
            coupons: [gripped],
            step: "hot rinse",
            what: "gripped with a bare glove while wet, rinsed again",
            paperworkOnly: false,
          },
        ]
      : []),
    ...(relabelled
      ? [
          {
            kind: "deviation" as const,
            coupons: [relabelled],
            step: null,
            what: "label written anew after the boil",
            paperworkOnly: true,
          },
        ]
      : []),
  ];
}
