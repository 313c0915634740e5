/** Which of the shop's answers are kept on the device for a day without network: those that tank and yard need. */
export const readsName = "coatwright answers";
export const shellName = (version: string) => `coatwright page ${version}`;

const kept = [
  /^\/api\/(me|shop|today|sites|trials|eye-tests)$/,
  /^\/api\/trials\/[0-9a-f-]{36}(\/rust-model)?$/,
  /^\/api\/measurements\/[0-9a-f-]{36}$/,
  // Small pictures only: a season of whole photographs would fill the device.
  /^\/api\/photos\/[0-9a-f]{64}$/,
];

export function isKept({ pathname, searchParams }: URL): boolean {
  if (pathname.startsWith("/api/photos/")) return kept.at(-1)!.test(pathname) && searchParams.has("width");
  return kept.some((one) => one.test(pathname));
}
