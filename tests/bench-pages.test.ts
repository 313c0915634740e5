/** The rooms of the bench tests in a real browser: wear counted, a finish colour read, photographs graded again, an eye tested by grade. */
import { onBothScreens } from "./both-screens.ts";
import { readFinishColours } from "./walk-colour.ts";
import { testEyeByGrade } from "./walk-eye-grades.ts";
import { gradeAgain } from "./walk-regrade.ts";
import { wearThrough } from "./walk-wear.ts";

onBothScreens("tests at the bench, in the page", 300_000, {
  "wear is counted": wearThrough,
  "a colour is read on two dates": readFinishColours,
  "photographs are graded again": gradeAgain,
  "an eye is tested by grade": testEyeByGrade,
});
