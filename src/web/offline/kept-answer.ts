/** The mark on an answer that the service worker kept from an earlier time: when the shop gave it. */
export const keptAtHeader = "x-coatwright-kept-at";
