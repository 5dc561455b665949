// The operator's contact, which sources of forecasts ask for with every request.

/**
 * True where a text can stand as the contact in a request header: 3 to 200 printable ASCII characters, the first no
 * blank. Which mail address or URL it is, the operator knows best.
 */
export const isUsableContact = (text: string): boolean => /^[\x21-\x7e][\x20-\x7e]{2,199}$/.test(text);
