/** What a field for photographs asks for: just what the shop takes. Asked for "any image", a phone may hand over HEIC. */
export const photoTypes = "image/jpeg,image/png,image/webp";
