/** On each fresh answer: the shop's clock, in milliseconds, by which a device knows how far its own is off. */
export const shopClockHeader = "x-coatwright-clock";
