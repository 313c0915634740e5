/** The version of the program that this page was built from; the build puts it in. */
declare const COATWRIGHT_VERSION: string;

export const pageVersion = (): string => COATWRIGHT_VERSION;
