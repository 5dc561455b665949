// What the reader chose for every page, as it goes into the address of another one.

interface Choices {
  readonly lang?: string | undefined;
  readonly units?: string | undefined;
  readonly look?: string | undefined;
}

export const readerChoices = ({ lang, units, look }: Choices): Record<string, string> => ({
  ...(lang === undefined ? {} : { lang }),
  ...(units === undefined ? {} : { units }),
  ...(look === undefined ? {} : { look }),
});
