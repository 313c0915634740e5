/** Words around every screen. */
export const shellText = {
  name: "Coatwright",
  today: "Today",
  settings: "Settings",
  close: "Close",
  skip: "To the content",
  invented: "Demonstration shop: every coupon, date and number here is invented.",
  loading: "Reading the shop's record…",
  noSuchPage: "There is no such page.",
  toToday: "To what is due today",
  failed: "This could not be shown.",
  tryAgain: "Try again",
  broken: "Something in this page broke. What you typed is kept; reloading brings it back.",
  reload: "Reload the page",
};

export const settingsText = {
  title: "Settings",
  sentence: "Units are chosen once for the whole shop; everything is stored in °C, mm and g.",
  units: "Units",
  temp: "Temperature",
  length: "Length",
  mass: "Mass",
  inch: "inch",
  save: "Keep these units",
  you: "Your name, as written beside what you record",
  youHint: "Kept on this device only.",
};
