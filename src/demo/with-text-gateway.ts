// Puts the gateway of the demonstration in where its configuration has a place for it.

interface Channels {
  readonly channels: Readonly<Record<string, object>>;
}

/** The configuration with the address of the gateway in its channel `text`, where it has one over HTTP. */
export function withTextGateway<C extends Channels>(config: C, url: string): C {
  const { text } = config.channels;
  if (text === undefined || !('url' in text)) return config;
  return { ...config, channels: { ...config.channels, text: { ...text, url } } };
}
