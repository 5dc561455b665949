// Types of the Pitward API. Made by `npm run client` from the OpenAPI document; never edited by hand.

export interface paths {
    "/healthz": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Alive */
        get: operations["getHealthz"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/readyz": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Able to answer, or why not, with the age of each forecast */
        get: operations["getReadyz"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** All sites with the state of their forecasts */
        get: operations["getV1Sites"];
        put?: never;
        /** A new site */
        post: operations["postV1Sites"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** A site: its definition, its limits, the state of its forecast */
        get: operations["getV1SitesId"];
        /** Another revision of a site, or a new one */
        put: operations["putV1SitesId"];
        post?: never;
        /** Takes a site out; its history stays */
        delete: operations["deleteV1SitesId"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/windows": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Go, hold and stop windows with their reasons */
        get: operations["getV1SitesIdWindows"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/hours": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Every hour: values, scores, room */
        get: operations["getV1SitesIdHours"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/plan": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** The three times of a day, why, and what would change them */
        get: operations["getV1SitesIdPlan"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/metrics": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Figures about the service itself, in the Prometheus text format
         * @description For keys of the organisation that runs the service, for all of its sites.
         */
        get: operations["getMetrics"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/plan": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** What if: plan a day for a site given in the body; nothing is stored */
        post: operations["postV1Plan"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/definition": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** A site as written; its ETag is the revision that a change names */
        get: operations["getV1SitesIdDefinition"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/history": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** All revisions of a site, newest first: who, when, what */
        get: operations["getV1SitesIdHistory"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/limit-sets": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** All limit sets as written */
        get: operations["getV1LimitSets"];
        put?: never;
        /** A new limit set */
        post: operations["postV1LimitSets"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/limit-sets/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** A limit set as written; its ETag is the revision that a change names */
        get: operations["getV1LimitSetsId"];
        /** Another revision of a limit set, or a new one */
        put: operations["putV1LimitSetsId"];
        post?: never;
        /** Takes a limit set out; its history stays */
        delete: operations["deleteV1LimitSetsId"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/limit-sets/{id}/history": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** All revisions of a limit set, newest first: who, when, what */
        get: operations["getV1LimitSetsIdHistory"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/orders": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** All orders as written */
        get: operations["getV1Orders"];
        put?: never;
        /** A new order */
        post: operations["postV1Orders"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/orders/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** A order as written; its ETag is the revision that a change names */
        get: operations["getV1OrdersId"];
        /** Another revision of a order, or a new one */
        put: operations["putV1OrdersId"];
        post?: never;
        /** Takes a order out; its history stays */
        delete: operations["deleteV1OrdersId"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/orders/{id}/history": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** All revisions of a order, newest first: who, when, what */
        get: operations["getV1OrdersIdHistory"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/contacts": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** All contacts as written, and who has opted out */
        get: operations["getV1Contacts"];
        put?: never;
        /** A new contact */
        post: operations["postV1Contacts"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/contacts/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** A contact as written; its ETag is the revision that a change names */
        get: operations["getV1ContactsId"];
        /** Another revision of a contact, or a new one */
        put: operations["putV1ContactsId"];
        post?: never;
        /** Takes a contact out; its history stays */
        delete: operations["deleteV1ContactsId"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/contacts/{id}/history": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** All revisions of a contact, newest first: who, when, what */
        get: operations["getV1ContactsIdHistory"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/burns": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Burns that were open in a span of time, with their taps */
        get: operations["getV1SitesIdBurns"];
        put?: never;
        /** A burn begins with its first tap; from then on it is watched until covered */
        post: operations["postV1SitesIdBurns"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/burns/{burn}/taps": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** A further tap, or the correction of one: rows are only ever added */
        post: operations["postV1SitesIdBurnsBurnTaps"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/burns/{burn}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** A burn with its taps */
        get: operations["getV1SitesIdBurnsBurn"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/burns/{burn}/incident": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        /** Your incident reference of a burn, carried by everything that is told of it */
        put: operations["putV1SitesIdBurnsBurnIncident"];
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/observations": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** What was observed in a span of time, as kept */
        get: operations["getV1SitesIdObservations"];
        put?: never;
        /** Readings of an instrument or a hand-held meter; the same one sent again counts once */
        post: operations["postV1SitesIdObservations"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/now": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** What stands at this moment: the worse of plan and watch, and why */
        get: operations["getV1SitesIdNow"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/notices": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** What somebody must know, as far as it is not over */
        get: operations["getV1Notices"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/messages": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** What was told about a site, to whom, over what, and what became of it */
        get: operations["getV1SitesIdMessages"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/drill": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Sends a text marked as a drill to the contacts of a site */
        post: operations["postV1SitesIdDrill"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/messages/{message}/answers": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** An answer ends the asking, not what it is about */
        post: operations["postV1MessagesMessageAnswers"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/now/stream": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * What stands at this moment, told at every change
         * @description Server-sent events. `event: now`: the answer of …/now, at once, at every change, and once a minute while nothing changes; each carries its own times (`asOf`, `goodUntil`), so that a listener can tell how old it is. `event: fault`: no answer can be given now; what was told before holds no longer than its `goodUntil`. `id`: the same for the same answer. This is a state and no log: what was told while nobody listened is not repeated, `Last-Event-ID` is passed over, and a new connection begins with what stands. A comment comes every 15 s; after ten minutes the stream ends, to be asked for again. Who does not read is dropped.
         */
        get: operations["getV1SitesIdNowStream"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/silences": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Silences that have not ended */
        get: operations["getV1Silences"];
        put?: never;
        /** No texts about a site, or about one thing there, for at most four hours */
        post: operations["postV1Silences"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/silences/{silence}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        /** Ends a silence now; it stays on record */
        delete: operations["deleteV1SilencesSilence"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/smoke-sources": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Which burns the smoke seen at a place and time may come from */
        get: operations["getV1SmokeSources"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/burns.csv": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Burns that were open in a span of time, as a table */
        get: operations["getV1SitesIdBurnsCsv"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/windows.csv": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Go, hold and stop windows with the gravest reason, as a table */
        get: operations["getV1SitesIdWindowsCsv"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites.geojson": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Sites as points, with the verdict of today */
        get: operations["getV1SitesGeojson"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/smoke.geojson": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Where the smoke of open burns goes, as sectors */
        get: operations["getV1SmokeGeojson"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/notices.geojson": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** What somebody must know, where its pit lies */
        get: operations["getV1NoticesGeojson"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/events": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** What happened, in its order: changed windows and verdicts, taps, notices, orders */
        get: operations["getV1Events"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/subscriptions": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Subscriptions, and how far each has come */
        get: operations["getV1Subscriptions"];
        put?: never;
        /** A new subscription, from the next event on; its secret is shown this once */
        post: operations["postV1Subscriptions"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/subscriptions/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** A subscription; its ETag is the revision that a change names */
        get: operations["getV1SubscriptionsId"];
        /** Another revision of a subscription; one that had ended goes on where it stood */
        put: operations["putV1SubscriptionsId"];
        post?: never;
        /** Takes a subscription out, with what is kept of it */
        delete: operations["deleteV1SubscriptionsId"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/subscriptions/{id}/deliveries": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** What became of each try, newest first; the last thousand are kept */
        get: operations["getV1SubscriptionsIdDeliveries"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/subscriptions/{id}/rotate": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Another secret, shown this once; the one before signs beside it for a while */
        post: operations["postV1SubscriptionsIdRotate"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/subscriptions/{id}/replay": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Sends anew what came after an event, under the same ids */
        post: operations["postV1SubscriptionsIdReplay"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/subscriptions/{id}/test": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Sends a test now, and tells what became of it; where it stands is left as it is */
        post: operations["postV1SubscriptionsIdTest"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/events/stream": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * The log of events, told as it grows
         * @description Server-sent events. Messages without a name are the events of GET /v1/events, byte for byte, each with its id as `id`, in their order; an `EventSource` that connects again goes on after the last one. Besides: `event: position`: nothing that you asked for is left out up to `position`; comes first, after a fault, and from time to time where others were passed over. `event: gap`: what came after `after` and up to `missingUpTo` is kept no longer: read the state anew. `event: fault`: nothing can be read now; what comes meanwhile is told later. `event: end`: the stream ends, and why: `renew` (after ten minutes) and `draining`: connect again at once; `slow`: too little was read for 30 s; `key`: the key has ended. A comment comes every 15 s.
         */
        get: operations["getV1EventsStream"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/cap.atom": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Index of CAP 1.2 messages as an Atom feed: in force, or until two days ago */
        get: operations["getV1CapAtom"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/cap/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** One CAP 1.2 message, the same bytes for ever */
        get: operations["getV1CapId"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/windows.ics": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Go windows of all sites as a calendar
         * @description iCalendar (RFC 5545), an event for each go window of the days ahead and of the last two weeks. The UID stays while the window moves, SEQUENCE rises with each change, and one that is no go any more stays as CANCELLED. Calendars read it seldom: it is a look ahead and no warning.
         */
        get: operations["getV1WindowsIcs"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/sites/{id}/windows.ics": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Go windows of a site as a calendar
         * @description iCalendar (RFC 5545), an event for each go window of the days ahead and of the last two weeks. The UID stays while the window moves, SEQUENCE rises with each change, and one that is no go any more stays as CANCELLED. Calendars read it seldom: it is a look ahead and no warning.
         */
        get: operations["getV1SitesIdWindowsIcs"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/calendar/{feed}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * The same under an address that is its own key
         * @description iCalendar (RFC 5545), an event for each go window of the days ahead and of the last two weeks. The UID stays while the window moves, SEQUENCE rises with each change, and one that is no go any more stays as CANCELLED. Calendars read it seldom: it is a look ahead and no warning.
         */
        get: operations["getV1CalendarFeed"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/inbound/{channel}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** A text that a gateway has received: an answer, an opt-out word, or neither */
        post: operations["postV1InboundChannel"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/receipts/{channel}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** What became of a text, as the gateway that took it says later */
        post: operations["postV1ReceiptsChannel"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
}
export type webhooks = Record<string, never>;
export interface components {
    schemas: {
        Reason: {
            /** @description stable code of what was found */
            code: string;
            /**
             * @description go: may light and may charge. hold: do not light; if lit, add no wood, keep the curtain up and the pit attended. stop: no fire: put it down and cover.
             * @enum {string}
             */
            verdict: "go" | "hold" | "stop";
            /** @description RFC 3339 with the offset of the site, to the second */
            from: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            to: string;
            element?: string;
            /** @description in `unit`, of the hour farthest beyond its bound */
            value?: number;
            /** @description in `unit` */
            bound?: number;
            unit?: string;
            /** @enum {string} */
            side?: "atLeast" | "atMost";
            /** @description the hour that `value` belongs to */
            at?: string;
            /** @description signed distance to the bound in `unit`; negative beyond it */
            room?: number;
            roomFraction?: number;
            /** @description true where the value was derived from other elements */
            derived?: boolean;
            category?: number;
            /** @description whose figure the bound is */
            source?: string;
            /** @description true where the verdict is hold because nobody can say */
            unknown: boolean;
            /** @description further figures, by code */
            figures?: {
                [key: string]: unknown;
            };
            text: string;
        };
        Tightest: {
            element: string;
            /** @enum {string} */
            class: "go" | "hold" | "stop";
            /** @description RFC 3339 with the offset of the site, to the second */
            at: string;
            value: number;
            bound: number;
            unit: string;
            /** @enum {string} */
            side: "atLeast" | "atMost";
            room: number;
            roomFraction: number;
            derived: boolean;
            source: string;
            text: string;
        };
        Window: {
            /**
             * @description go: may light and may charge. hold: do not light; if lit, add no wood, keep the curtain up and the pit attended. stop: no fire: put it down and cover.
             * @enum {string}
             */
            verdict: "go" | "hold" | "stop";
            /** @description RFC 3339 with the offset of the site, to the second */
            from: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            to: string;
            /**
             * @description as of workedOutAt. none: no go; ahead: still to come; light: may light; charge: too late to light, may charge; over: past
             * @enum {string}
             */
            standing: "none" | "ahead" | "light" | "charge" | "pause" | "over";
            /** @description of a go: from this moment on it is too late to light in it; charging goes on until its end */
            lightUpBy: string | null;
            reasons: components["schemas"]["Reason"][];
            tightest: components["schemas"]["Tightest"] | null;
        };
        Windows: {
            site: string;
            name: string;
            timeZone: string;
            /** @description the forecast document's own update time */
            madeAt: string | null;
            /** @description when this content was first received */
            fetchedAt: string;
            /** @description when the official alerts were last read */
            alertsReadAt: string | null;
            /** @description the moment as of which this was judged */
            workedOutAt: string;
            /** @description void after this moment, even where nothing new was published */
            goodUntil: string | null;
            /** @description true where the forecast or the official alerts are too old, undated or unread to give go */
            stale: boolean;
            demo: boolean;
            /** @description SHA-256 of the kept site definition, forecast document and list of alerts: with `workedOutAt` and the question they give these bytes again; null where nothing is kept */
            madeFrom: {
                definition: string;
                document: string;
                alerts: string;
                pointTimeZone: string;
            } | null;
            /** @enum {string} */
            units: "us" | "si";
            /** @enum {string} */
            lang: "en" | "es";
            caution: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            from: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            to: string;
            windows: components["schemas"]["Window"][];
        };
        Score: {
            /** @description which of the limits, in the order of GET /v1/sites/{id} */
            limit: number;
            element: string;
            /** @enum {string} */
            class: "go" | "hold" | "stop" | "missing";
            /** @description false outside of the hours (day, night) for which the limit was written */
            applies: boolean;
            value: number | null;
            bound: number | null;
            unit: string;
            room: number | null;
            roomFraction: number | null;
            derived: boolean;
            /** @description why there is no value */
            missing: string | null;
            source: string;
        };
        Hour: {
            /** @description RFC 3339 with the offset of the site, to the second */
            from: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            to: string;
            /**
             * @description the worst verdict within the hour
             * @enum {string}
             */
            verdict: "go" | "hold" | "stop";
            values: {
                [key: string]: {
                    value: number | null;
                    unit: string;
                    derived: boolean;
                    missing: string | null;
                };
            };
            /** @description degrees clockwise from north */
            smokeGoesToward: number | null;
            scores: components["schemas"]["Score"][];
            tightest: components["schemas"]["Tightest"] | null;
        };
        HourLimit: {
            /** @description its place in this list, as scores name it */
            limit: number;
            element: string;
            /** @enum {string} */
            when: "always" | "day" | "night";
            unit: string;
            /** @description bounds in `unit`; null where there is none on that side */
            atLeast: {
                hold: number | null;
                stop: number | null;
            } | null;
            /** @description bounds in `unit`; null where there is none on that side */
            atMost: {
                hold: number | null;
                stop: number | null;
            } | null;
            /** @description true: a value on a bound is still within it */
            inclusive: boolean;
            /** @description whose figures these are */
            source: string;
        };
        Hours: {
            site: string;
            name: string;
            timeZone: string;
            /** @description the forecast document's own update time */
            madeAt: string | null;
            /** @description when this content was first received */
            fetchedAt: string;
            /** @description when the official alerts were last read */
            alertsReadAt: string | null;
            /** @description the moment as of which this was judged */
            workedOutAt: string;
            /** @description void after this moment, even where nothing new was published */
            goodUntil: string | null;
            /** @description true where the forecast or the official alerts are too old, undated or unread to give go */
            stale: boolean;
            demo: boolean;
            /** @description SHA-256 of the kept site definition, forecast document and list of alerts: with `workedOutAt` and the question they give these bytes again; null where nothing is kept */
            madeFrom: {
                definition: string;
                document: string;
                alerts: string;
                pointTimeZone: string;
            } | null;
            /** @enum {string} */
            units: "us" | "si";
            /** @enum {string} */
            lang: "en" | "es";
            caution: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            from: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            to: string;
            /** @description what the hours were judged by, in the units of this answer */
            limits: components["schemas"]["HourLimit"][];
            hours: components["schemas"]["Hour"][];
        };
        Move: {
            element: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            at: string;
            value: number;
            bound: number;
            moveBy: number;
            unit: string;
            /**
             * @description go: may light and may charge. hold: do not light; if lit, add no wood, keep the curtain up and the pit attended. stop: no fire: put it down and cover.
             * @enum {string}
             */
            towards: "go" | "hold" | "stop";
            source: string;
            text: string;
        };
        Plan: {
            site: string;
            name: string;
            timeZone: string;
            /** @description the forecast document's own update time */
            madeAt: string | null;
            /** @description when this content was first received */
            fetchedAt: string;
            /** @description when the official alerts were last read */
            alertsReadAt: string | null;
            /** @description the moment as of which this was judged */
            workedOutAt: string;
            /** @description void after this moment, even where nothing new was published */
            goodUntil: string | null;
            /** @description true where the forecast or the official alerts are too old, undated or unread to give go */
            stale: boolean;
            demo: boolean;
            /** @description SHA-256 of the kept site definition, forecast document and list of alerts: with `workedOutAt` and the question they give these bytes again; null where nothing is kept */
            madeFrom: {
                definition: string;
                document: string;
                alerts: string;
                pointTimeZone: string;
            } | null;
            /** @enum {string} */
            units: "us" | "si";
            /** @enum {string} */
            lang: "en" | "es";
            caution: string;
            /** @description local date of the site */
            day: string;
            /**
             * @description go: may light and may charge. hold: do not light; if lit, add no wood, keep the curtain up and the pit attended. stop: no fire: put it down and cover.
             * @enum {string}
             */
            verdict: "go" | "hold" | "stop";
            /**
             * @description none: no burn that day; ahead: before light-up; light: may light; charge: too late to light, may charge; pause: in a pause of the burn; over: after the last charge. The verdict is go for ahead and light only.
             * @enum {string}
             */
            standing: "none" | "ahead" | "light" | "charge" | "pause" | "over";
            /** @description true where the day is hold only because nobody can say */
            cannotSay: boolean;
            warmUp: string | null;
            lightUp: string | null;
            /** @description from this moment on it is too late to light; charging goes on until the last charge */
            lightUpBy: string | null;
            firstCharge: string | null;
            lastCharge: string | null;
            burnedDown: string | null;
            coveredBy: string | null;
            pauses: {
                /** @description RFC 3339 with the offset of the site, to the second */
                from: string;
                /** @description RFC 3339 with the offset of the site, to the second */
                to: string;
                reasons: components["schemas"]["Reason"][];
            }[];
            causes: {
                warmUp: string | null;
                lightUp: components["schemas"]["Reason"][];
                lastCharge: components["schemas"]["Reason"][];
                burnedDown: string | null;
                coveredBy: string | null;
            };
            tightest: components["schemas"]["Tightest"] | null;
            wouldChange: {
                moves: components["schemas"]["Move"][];
                barredBy: components["schemas"]["Reason"][];
                next: {
                    /** @description RFC 3339 with the offset of the site, to the second */
                    at: string;
                    /**
                     * @description go: may light and may charge. hold: do not light; if lit, add no wood, keep the curtain up and the pit attended. stop: no fire: put it down and cover.
                     * @enum {string}
                     */
                    from: "go" | "hold" | "stop";
                    /**
                     * @description go: may light and may charge. hold: do not light; if lit, add no wood, keep the curtain up and the pit attended. stop: no fire: put it down and cover.
                     * @enum {string}
                     */
                    to: "go" | "hold" | "stop";
                    reasons: components["schemas"]["Reason"][];
                    text: string;
                } | null;
            };
            /** @description the answer in one line */
            text: string;
        };
        ForecastState: {
            /** @enum {string} */
            state: "fresh" | "aging" | "stale" | "none";
            madeAt: string | null;
            /** @description since the document was made, not since it was fetched */
            ageMin: number | null;
            /** @description when the source last confirmed it */
            checkedAt: string | null;
            /** @description by when the source is asked again; past where that is overdue, null where it never was asked */
            nextDueAt: string | null;
            alertsReadAt: string | null;
            fault: {
                code: string;
                message: string;
                /** @description RFC 3339 with the offset of the site, to the second */
                at: string;
            } | null;
        };
        Site: {
            id: string;
            name: string;
            /** @description degrees north, degrees east */
            at: [
                number,
                number
            ];
            /** @description null until the forecast point has told it */
            timeZone: string | null;
            permit: {
                number: string;
                issuer: string | null;
            } | null;
            phone: string | null;
            /** @description how to get there, in words */
            directions: string | null;
            limitSet: string;
            limits: {
                [key: string]: unknown;
            }[];
            definition: {
                [key: string]: unknown;
            };
            forecast: components["schemas"]["ForecastState"];
            demo: boolean;
            caution: string;
        };
        Sites: {
            sites: {
                id: string;
                name: string;
                at: [
                    number,
                    number
                ];
                timeZone: string | null;
                forecast: components["schemas"]["ForecastState"];
            }[];
            demo: boolean;
            caution: string;
        };
        Problem: {
            type: string;
            title: string;
            status: number;
            detail: string;
            code: string;
            faults?: {
                path: string;
                message: string;
            }[];
            /** @description what still names it, where it cannot be taken out */
            usedBy?: string[];
        };
        Event: {
            /** @description the same on every way out; `after` takes it */
            id: string;
            /**
             * @description more may be added: pass over what you do not know
             * @enum {string}
             */
            type: "verdict-changed" | "window-changed" | "reason-changed" | "forecast-stale" | "forecast-fresh" | "burn-lit" | "burn-charging" | "burn-burning-down" | "burn-covered" | "burn-put-out-early" | "burn-corrected" | "burn-incident" | "notice-raised" | "notice-updated" | "notice-ended" | "order-added" | "order-changed" | "order-lifted" | "subscription-ended";
            /** @description when it came about; of a tap: when it was received */
            at: string;
            /** @description null: of the whole organisation */
            site: string | null;
            siteName: string | null;
            /** @description WGS 84, degrees */
            place: {
                lat: number;
                lon: number;
            } | null;
            /** @description your own name of the site, as you gave it */
            externalRef: string | null;
            /** @description of a burn and what is told while it burns: your own name of the incident, as assigned by then */
            incidentRef: string | null;
            /** @description what it is about: a plan, a burn, a notice, an order */
            subject: string;
            /** @description nobody is to go by it after this; null: it is a fact and stays one */
            validUntil: string | null;
            /** @description of a notice: what stands after it, `go` where nothing does, which is never leave to light */
            verdict: ("go" | "hold" | "stop") | null;
            text: string;
            /** @description figures by type */
            data: {
                [key: string]: unknown;
            };
        };
        Events: {
            /** @description in the order in which they became durable */
            events: components["schemas"]["Event"][];
            /** @description ask on with after={next}; nothing up to it was left out */
            next: string;
            more: boolean;
            /** @description not null: events after yours and up to this one are kept no longer; read the state anew */
            missingUpTo: string | null;
            demo: boolean;
        };
        /** @description in the list of contacts alone: nothing is sent to this one; null: they may be texted */
        OptedOut: {
            /** @description RFC 3339, UTC */
            since: string;
            /**
             * @description kind of the address over which they said so; it holds for all of theirs
             * @enum {string}
             */
            address: "phone" | "email" | "push" | "webhook" | "other";
            /** @description what they wrote; in brackets where a network said so */
            words: string;
        };
        Definition: {
            /** @enum {string} */
            kind: "site" | "limit-set" | "order" | "contact";
            id: string;
            /** @description from 1, without gaps; its ETag is "r" and this number */
            revision: number;
            /** @description as written: what the configuration file would hold; null: taken out */
            body: unknown;
            /** @enum {string} */
            origin: "file" | "api";
            /** @description RFC 3339, UTC */
            changedAt: string;
            /** @description name of the key, or of the file */
            changedBy: string;
            optedOut?: components["schemas"]["OptedOut"] | null;
        };
        Definitions: {
            definitions: components["schemas"]["Definition"][];
        };
        Ready: {
            ready: boolean;
            demo: boolean;
            /** @description why it is not ready */
            reason?: {
                /** @enum {string} */
                code: "ending" | "store-unread" | "store-disk-full" | "store-read-only" | "store-locked" | "store-connection-lost" | "store-too-slow" | "store-damaged" | "store-closed" | "store-other" | "no-sound-site" | "no-fresh-forecast";
                sentence: string;
            };
            /** @description for whoever may read; without a key only whether it is ready, and why not */
            sites?: {
                site: string;
                /** @enum {string} */
                state: "fresh" | "aging" | "stale" | "none";
                madeAt: string | null;
                /** @description since the document was made, not since it was fetched */
                ageMin: number | null;
                /** @description when the source last confirmed it */
                checkedAt: string | null;
                /** @description by when the source is asked again; past where that is overdue, null where it never was asked */
                nextDueAt: string | null;
                alertsReadAt: string | null;
                fault: {
                    code: string;
                    message: string;
                    /** @description RFC 3339 with the offset of the site, to the second */
                    at: string;
                } | null;
            }[];
        };
        Tap: {
            id: string;
            /**
             * @description lit, charging, burning-down, covered; put-out-early: put out before it had burned down, and still to be covered
             * @enum {string}
             */
            tap: "lit" | "charging" | "burning-down" | "covered" | "put-out-early";
            /** @description RFC 3339 with the offset of the site, to the second */
            tappedAt: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            receivedAt: string;
            by: string;
            from: string;
            /** @description the tap that this one replaces */
            corrects: string | null;
            /** @description true: the tap that it corrects did not happen */
            withdraws: boolean;
            note: string;
            /** @description false where a later tap has corrected it */
            counts: boolean;
        };
        Burn: {
            id: string;
            site: string;
            /**
             * @description lit, charging, burning-down, covered; put-out-early: put out before it had burned down, and still to be covered
             * @enum {string}
             */
            state: "lit" | "charging" | "burning-down" | "covered" | "put-out-early";
            /** @description RFC 3339 with the offset of the site, to the second */
            openedAt: string;
            litAt: string | null;
            /** @description RFC 3339 with the offset of the site, to the second */
            since: string;
            /** @description null while it is watched */
            closedAt: string | null;
            /** @description what a dispatch center calls it, as it gave it */
            incidentRef: string | null;
            /** @description wind direction that the crew goes by: what it acknowledged last, else the forecast at light-up; degrees FROM, clockwise from north */
            briefedFrom: number | null;
            /** @description winds that the crew acknowledged */
            briefings: {
                /** @description RFC 3339 with the offset of the site, to the second */
                at: string;
                /** @description which contact acknowledged it */
                by: string;
                /** @description degrees clockwise from true north */
                windFrom: number;
                /** @description RFC 3339 with the offset of the site, to the second */
                observedAt: string;
                /** @description the message that told it */
                message: string;
            }[];
            taps: components["schemas"]["Tap"][];
        };
        Burns: {
            burns: components["schemas"]["Burn"][];
        };
        Observation: {
            station: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            observedAt: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            receivedAt: string;
            /**
             * @description four different things; only `blowing` has a direction
             * @enum {string}
             */
            wind: "blowing" | "variable" | "calm" | "missing";
            /** @description degrees clockwise from true north, 360 is north */
            windFrom: number | null;
            windSpeedMps: number | null;
            windHeightM: number | null;
            windAveragingS: number | null;
            gustMps: number | null;
            relativeHumidityPct: number | null;
            temperatureC: number | null;
            pressurePa: number | null;
            thunder: boolean | null;
            /** @enum {string} */
            quality: "passed" | "unverified" | "doubtful";
        };
        Observations: {
            observations: components["schemas"]["Observation"][];
        };
        Observed: {
            results: {
                index: number;
                /** @enum {string} */
                outcome: "kept" | "duplicate" | "corrected" | "refused";
                why: string | null;
                /** @description the field at fault, where one is */
                path: string | null;
            }[];
        };
        Condition: {
            /** @description stable code of what is watched for */
            code: string;
            /** @description which of several: an element, a place, a station */
            subject: string;
            /**
             * @description unknown: nobody can say; it never counts as over
             * @enum {string}
             */
            truth: "true" | "false" | "unknown";
            /**
             * @description what it means while true; go is advice
             * @enum {string}
             */
            verdict: "go" | "hold" | "stop";
            /** @enum {string} */
            basis: "observed" | "forecast" | "record" | "order";
            asOf: string | null;
            text: string;
        };
        Notice: {
            id: string;
            site: string;
            code: string;
            subject: string;
            phase: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            since: string;
            raisedAt: string | null;
            /** @description the worst that was told of it */
            verdict: ("go" | "hold" | "stop") | null;
            acknowledgedAt: string | null;
            acknowledgedBy: string | null;
            condition: components["schemas"]["Condition"];
        };
        Notices: {
            notices: components["schemas"]["Notice"][];
        };
        Delivery: {
            contact: string;
            channel: string;
            /** @description 0 is told first */
            step: number;
            /** @description 0 for the first time, then each repeat */
            round: number;
            /** @description waiting, sending, sent, failed, expired; uncertain: it may or may not have arrived */
            outcome: string;
            reason: string | null;
            /** @description RFC 3339 with the offset of the site, to the second */
            dueAt: string;
            settledAt: string | null;
            /** @description when the network said that it had arrived; null: it has not said so */
            deliveredAt: string | null;
        };
        Message: {
            id: string;
            site: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            at: string;
            kind: string;
            /** @enum {string} */
            verdict: "go" | "hold" | "stop";
            text: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            validUntil: string;
            needsAnswer: boolean;
            answers: {
                contact: string;
                answer: string;
                /** @description RFC 3339 with the offset of the site, to the second */
                at: string;
                via: string;
            }[];
            deliveries: components["schemas"]["Delivery"][];
        };
        Messages: {
            messages: components["schemas"]["Message"][];
        };
        Silence: {
            id: string;
            site: string;
            /** @description null: all of the site */
            code: string | null;
            /** @description as whom: only the office silences a stop that was observed */
            role: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            from: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            until: string;
            reason: string;
            by: string;
            endedAt: string | null;
        };
        Silences: {
            silences: components["schemas"]["Silence"][];
        };
        Now: {
            site: string;
            name: string;
            timeZone: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            asOf: string;
            /**
             * @description the worse of plan and watch
             * @enum {string}
             */
            verdict: "go" | "hold" | "stop";
            /** @description true where it is hold because nobody can say */
            unknown: boolean;
            whatToDo: string;
            /** @description the ground for it, in one sentence */
            text: string;
            /**
             * @description of the plan alone; hold where it is too late to light and nothing burns
             * @enum {string}
             */
            planVerdict: "go" | "hold" | "stop";
            /** @description the burn that is open */
            burn: components["schemas"]["Burn"] | null;
            lightUp: string | null;
            lastCharge: string | null;
            coveredBy: string | null;
            /** @description the one that is judged by; sources are ranked, never averaged */
            observation: components["schemas"]["Observation"] | null;
            /** @description true and unknown ones, worst first */
            conditions: components["schemas"]["Condition"][];
            /** @description those that are not over */
            notices: components["schemas"]["Notice"][];
            /** @description in force now: what of this the crew is not told, by whom and until when */
            silences: components["schemas"]["Silence"][];
            /** @description the forecast document's own update time */
            forecastMadeAt: string | null;
            /** @description a go of this answer is void after this moment: ask again before it */
            goodUntil: string;
            demo: boolean;
            caution: string;
        };
        Subscription: {
            id: string;
            /** @description from 1; its ETag is "r" and this number */
            revision: number;
            url: string;
            /** @enum {string} */
            format: "plain" | "cloudevents";
            description: string;
            active: boolean;
            sites: string[] | null;
            area: unknown;
            types: string[] | null;
            /** @description RFC 3339 with the offset of the site, to the second */
            madeAt: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            changedAt: string;
            /** @description by what this key may see it is sent; it ends with the key */
            changedBy: string;
            /** @description not null: two secrets sign until then */
            olderSecretUntil: string | null;
            /**
             * @description failing: the last try was not taken; it is tried again
             * @enum {string}
             */
            state: "sending" | "failing" | "paused" | "ended";
            /** @description id of the last event that was looked at for it and kept */
            after: string;
            /** @description in a row */
            failures: number;
            failingSince: string | null;
            nextTryAt: string | null;
            lastTakenAt: string | null;
            /** @description events that it did not get and has not been told of; count null: not known */
            missed: {
                after: string;
                upTo: string;
                count: number | null;
            } | null;
            /** @description gone: it answered 410. failing: nothing was taken for three days. key: that key has ended */
            ended: {
                /** @enum {string} */
                why: "gone" | "failing" | "key";
                /** @description RFC 3339 with the offset of the site, to the second */
                at: string;
            } | null;
            /** @description where one was made; shown this once */
            secret?: string;
        };
        Subscriptions: {
            subscriptions: components["schemas"]["Subscription"][];
        };
        TriedDelivery: {
            /** @description the id of the event, where it was one */
            webhookId: string;
            type: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            at: string;
            tookMs: number;
            /**
             * @description refused: it would not have that message (400, 413, 415, 422). gone: 410
             * @enum {string}
             */
            outcome: "taken" | "refused" | "failed" | "gone";
            /** @description HTTP status; null: no answer */
            status: number | null;
            reason: string | null;
            detail: string | null;
        };
        HookDelivery: {
            number: number;
            /** @description the id of the event, where it was one */
            webhookId: string;
            type: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            at: string;
            tookMs: number;
            /**
             * @description refused: it would not have that message (400, 413, 415, 422). gone: 410
             * @enum {string}
             */
            outcome: "taken" | "refused" | "failed" | "gone";
            /** @description HTTP status; null: no answer */
            status: number | null;
            reason: string | null;
            detail: string | null;
        };
        HookDeliveries: {
            deliveries: components["schemas"]["HookDelivery"][];
        };
        Smoke: {
            /**
             * @description toward: a sector; all others have none. light: too little wind to say; stale: the forecast is too old to go by; missing: nobody says
             * @enum {string}
             */
            kind: "toward" | "calm" | "variable" | "light" | "stale" | "missing";
            /** @description where it goes to, degrees clockwise from true north */
            toward: number | null;
            /** @description of the sector on either side, degrees */
            halfWidth: number | null;
            windSpeedMps: number | null;
            /** @description null where nobody says */
            source: ("observed" | "forecast") | null;
            station: string | null;
            /** @description of the newest reading, or the beginning of the forecast hour */
            at: string | null;
            /** @description of the forecast */
            madeAt: string | null;
            /** @description where it goes and who says so */
            text: string;
        };
        SmokeSource: {
            site: string;
            name: string;
            timeZone: string;
            burn: string;
            /**
             * @description at the moment asked for
             * @enum {string}
             */
            state: "lit" | "charging" | "burning-down" | "covered" | "put-out-early";
            litAt: string | null;
            coveredAt: string | null;
            /** @description of the pit: degrees north, degrees east; null, as all that follows from it, with `no-place` */
            at: [
                number,
                number
            ] | null;
            distanceM: number | null;
            /** @description from the pit to the place, degrees clockwise from true north */
            bearing: number | null;
            /** @description from the place to the pit */
            backBearing: number | null;
            /**
             * @description sector: covers the place; at-the-pit: so near that no direction counts; covered: its smoke went there, but the pit was covered by then; earlier-wind: so far away that smoke of before the last hour may be there; no-place: its site is not in force any more, so that nobody can say where it lies; outside: its smoke went elsewhere; the others: nobody can say where it went
             * @enum {string}
             */
            why: "sector" | "at-the-pit" | "calm" | "variable" | "light" | "stale" | "missing" | "earlier-wind" | "no-place" | "covered" | "outside";
            /** @description how far the place lies beside the middle of the sector, degrees */
            beside: number | null;
            /** @description the one that decides, of the last hour before the moment */
            smoke: components["schemas"]["Smoke"] | null;
            permit: {
                number: string;
                issuer: string | null;
            } | null;
            phone: string | null;
            text: string;
        };
        SmokeSources: {
            /** @description the place asked for: degrees north, degrees east */
            at: [
                number,
                number
            ];
            /** @description the moment asked for, in the time of the nearest site */
            time: string;
            /** @description of the nearest site */
            timeZone: string;
            /** @description RFC 3339 with the offset of the site, to the second */
            asOf: string;
            /** @description the likeliest first: by distance, at the edge of a sector as from twice as far */
            covers: components["schemas"]["SmokeSource"][];
            /** @description by distance, those of which nobody can say where they lie at the end; what is missing never excludes a burn */
            cannotExclude: components["schemas"]["SmokeSource"][];
            /** @description by distance */
            outside: components["schemas"]["SmokeSource"][];
            /** @description open burns farther away than is looked */
            beyond: number;
            /** @description how far is looked */
            reachM: number;
            /** @description to the nearest site, whether it burns or not */
            nearestSiteM: number | null;
            demo: boolean;
            caution: string;
        };
        /**
         * @example {
         *       "type": "FeatureCollection",
         *       "features": [
         *         {
         *           "type": "Feature",
         *           "id": "north-block",
         *           "geometry": {
         *             "type": "Point",
         *             "coordinates": [
         *               -120.231,
         *               36.438
         *             ]
         *           },
         *           "properties": {
         *             "site": "north-block",
         *             "name": "North block, pit 1",
         *             "timeZone": "America/Los_Angeles",
         *             "externalRef": "PIT-17",
         *             "day": "2026-04-14",
         *             "verdict": "go",
         *             "unknown": false,
         *             "lightUp": "2026-04-14T10:05:00-07:00",
         *             "lightUpBy": "2026-04-14T14:00:00-07:00",
         *             "lastCharge": "2026-04-14T14:30:00-07:00",
         *             "coveredBy": "2026-04-14T16:30:00-07:00",
         *             "burn": null,
         *             "forecast": {
         *               "state": "fresh",
         *               "madeAt": "2026-04-14T10:05:00-07:00",
         *               "ageMin": 0,
         *               "checkedAt": "2026-04-14T10:05:00-07:00",
         *               "nextDueAt": "2026-04-14T10:05:00-07:00",
         *               "alertsReadAt": "2026-04-14T10:05:00-07:00",
         *               "fault": null
         *             }
         *           }
         *         }
         *       ],
         *       "asOf": "2026-04-14T17:05:00+00:00",
         *       "demo": false,
         *       "caution": "Only the crew lights."
         *     }
         */
        SiteMap: {
            /** @constant */
            type: "FeatureCollection";
            features: {
                /** @constant */
                type: "Feature";
                id: string;
                geometry: {
                    /** @constant */
                    type: "Point";
                    /** @description degrees east, degrees north, WGS 84 */
                    coordinates: [
                        number,
                        number
                    ];
                };
                properties: {
                    site: string;
                    name: string;
                    timeZone: string | null;
                    externalRef: string | null;
                    /** @description the date that the times are of; null where nothing is known yet */
                    day: string | null;
                    /**
                     * @description of today, the worse of plan and watch. go: there is or was time for it today, see the times; hold where nobody can say
                     * @enum {string}
                     */
                    verdict: "go" | "hold" | "stop";
                    /** @description true where the verdict is hold because nobody can say */
                    unknown: boolean;
                    lightUp: string | null;
                    lightUpBy: string | null;
                    lastCharge: string | null;
                    coveredBy: string | null;
                    /** @description state of the burn that is open; null: nothing burns */
                    burn: ("lit" | "charging" | "burning-down" | "covered" | "put-out-early") | null;
                    forecast: components["schemas"]["ForecastState"];
                };
            }[];
            /** @description RFC 3339 with the offset of the site, to the second */
            asOf: string;
            demo: boolean;
            caution: string;
        };
        /**
         * @example {
         *       "type": "FeatureCollection",
         *       "features": [
         *         {
         *           "type": "Feature",
         *           "id": "burn-8c1f",
         *           "geometry": {
         *             "type": "Polygon",
         *             "coordinates": [
         *               [
         *                 [
         *                   -120.231,
         *                   36.438
         *                 ],
         *                 [
         *                   -120.12587,
         *                   36.40719
         *                 ],
         *                 [
         *                   -120.11949,
         *                   36.437931
         *                 ],
         *                 [
         *                   -120.12578,
         *                   36.468738
         *                 ],
         *                 [
         *                   -120.231,
         *                   36.438
         *                 ]
         *               ]
         *             ]
         *           },
         *           "properties": {
         *             "site": "north-block",
         *             "name": "North block, pit 1",
         *             "burn": "burn-8c1f",
         *             "state": "lit",
         *             "smoke": {
         *               "kind": "toward",
         *               "toward": 90,
         *               "halfWidth": 20,
         *               "windSpeedMps": 3.6,
         *               "source": "observed",
         *               "station": "mast",
         *               "at": "2026-04-14T10:05:00-07:00",
         *               "madeAt": null,
         *               "text": "toward E (90°), 20° on either side; read by mast at 10:05 am"
         *             },
         *             "reachM": 10000
         *           }
         *         }
         *       ],
         *       "asOf": "2026-04-14T17:05:00+00:00",
         *       "demo": false,
         *       "caution": "Only the crew lights."
         *     }
         */
        SmokeMap: {
            /** @constant */
            type: "FeatureCollection";
            features: {
                /** @constant */
                type: "Feature";
                id: string;
                /** @description a sector where there is one; the pit alone where nobody can say which way, which is anywhere; null where nobody knows where it lies */
                geometry: {
                    /** @constant */
                    type: "Polygon";
                    coordinates: [
                        number,
                        number
                    ][][];
                } | {
                    /** @constant */
                    type: "MultiPolygon";
                    coordinates: [
                        number,
                        number
                    ][][][];
                } | {
                    /** @constant */
                    type: "Point";
                    /** @description degrees east, degrees north, WGS 84 */
                    coordinates: [
                        number,
                        number
                    ];
                } | null;
                properties: {
                    site: string;
                    name: string;
                    burn: string;
                    /**
                     * @description lit, charging, burning-down, covered; put-out-early: put out before it had burned down, and still to be covered
                     * @enum {string}
                     */
                    state: "lit" | "charging" | "burning-down" | "covered" | "put-out-early";
                    smoke: components["schemas"]["Smoke"] | null;
                    /** @description how far the sector is drawn; smoke may go farther */
                    reachM: number | null;
                };
            }[];
            /** @description RFC 3339 with the offset of the site, to the second */
            asOf: string;
            demo: boolean;
            caution: string;
        };
        /**
         * @example {
         *       "type": "FeatureCollection",
         *       "features": [
         *         {
         *           "type": "Feature",
         *           "id": "north-block own/north-block smoke-turned-to-place County road 1",
         *           "geometry": {
         *             "type": "Point",
         *             "coordinates": [
         *               -120.231,
         *               36.438
         *             ]
         *           },
         *           "properties": {
         *             "id": "own/north-block smoke-turned-to-place County road 1",
         *             "site": "north-block",
         *             "name": "North block, pit 1",
         *             "code": "smoke-turned-to-place",
         *             "subject": "County road",
         *             "phase": "raised",
         *             "since": "2026-04-14T10:05:00-07:00",
         *             "raisedAt": "2026-04-14T10:05:00-07:00",
         *             "verdict": "stop",
         *             "acknowledgedAt": null,
         *             "acknowledgedBy": null,
         *             "condition": {
         *               "code": "smoke-turned-to-place",
         *               "subject": "County road",
         *               "truth": "true",
         *               "verdict": "stop",
         *               "basis": "observed",
         *               "asOf": "2026-04-14T10:05:00-07:00",
         *               "text": "Smoke goes onto the county road."
         *             }
         *           }
         *         }
         *       ],
         *       "asOf": "2026-04-14T17:05:00+00:00",
         *       "demo": false,
         *       "caution": "Only the crew lights."
         *     }
         */
        NoticeMap: {
            /** @constant */
            type: "FeatureCollection";
            features: {
                /** @constant */
                type: "Feature";
                id: string;
                /** @description of the pit */
                geometry: {
                    /** @constant */
                    type: "Point";
                    /** @description degrees east, degrees north, WGS 84 */
                    coordinates: [
                        number,
                        number
                    ];
                };
                properties: {
                    id: string;
                    site: string;
                    code: string;
                    subject: string;
                    phase: string;
                    /** @description RFC 3339 with the offset of the site, to the second */
                    since: string;
                    raisedAt: string | null;
                    /** @description the worst that was told of it */
                    verdict: ("go" | "hold" | "stop") | null;
                    acknowledgedAt: string | null;
                    acknowledgedBy: string | null;
                    condition: components["schemas"]["Condition"];
                    /** @description of the site */
                    name: string;
                };
            }[];
            /** @description RFC 3339 with the offset of the site, to the second */
            asOf: string;
            demo: boolean;
            caution: string;
        };
        WhatIf: {
            site: string;
            name: string;
            timeZone: string;
            /** @description the forecast document's own update time */
            madeAt: string | null;
            /** @description when this content was first received */
            fetchedAt: string;
            /** @description when the official alerts were last read */
            alertsReadAt: string | null;
            /** @description the moment as of which this was judged */
            workedOutAt: string;
            /** @description void after this moment, even where nothing new was published */
            goodUntil: string | null;
            /** @description true where the forecast or the official alerts are too old, undated or unread to give go */
            stale: boolean;
            demo: boolean;
            /** @description SHA-256 of the kept site definition, forecast document and list of alerts: with `workedOutAt` and the question they give these bytes again; null where nothing is kept */
            madeFrom: {
                definition: string;
                document: string;
                alerts: string;
                pointTimeZone: string;
            } | null;
            /** @enum {string} */
            units: "us" | "si";
            /** @enum {string} */
            lang: "en" | "es";
            caution: string;
            /** @description local date of the site */
            day: string;
            /**
             * @description go: may light and may charge. hold: do not light; if lit, add no wood, keep the curtain up and the pit attended. stop: no fire: put it down and cover.
             * @enum {string}
             */
            verdict: "go" | "hold" | "stop";
            /**
             * @description none: no burn that day; ahead: before light-up; light: may light; charge: too late to light, may charge; pause: in a pause of the burn; over: after the last charge. The verdict is go for ahead and light only.
             * @enum {string}
             */
            standing: "none" | "ahead" | "light" | "charge" | "pause" | "over";
            /** @description true where the day is hold only because nobody can say */
            cannotSay: boolean;
            warmUp: string | null;
            lightUp: string | null;
            /** @description from this moment on it is too late to light; charging goes on until the last charge */
            lightUpBy: string | null;
            firstCharge: string | null;
            lastCharge: string | null;
            burnedDown: string | null;
            coveredBy: string | null;
            pauses: {
                /** @description RFC 3339 with the offset of the site, to the second */
                from: string;
                /** @description RFC 3339 with the offset of the site, to the second */
                to: string;
                reasons: components["schemas"]["Reason"][];
            }[];
            causes: {
                warmUp: string | null;
                lightUp: components["schemas"]["Reason"][];
                lastCharge: components["schemas"]["Reason"][];
                burnedDown: string | null;
                coveredBy: string | null;
            };
            tightest: components["schemas"]["Tightest"] | null;
            wouldChange: {
                moves: components["schemas"]["Move"][];
                barredBy: components["schemas"]["Reason"][];
                next: {
                    /** @description RFC 3339 with the offset of the site, to the second */
                    at: string;
                    /**
                     * @description go: may light and may charge. hold: do not light; if lit, add no wood, keep the curtain up and the pit attended. stop: no fire: put it down and cover.
                     * @enum {string}
                     */
                    from: "go" | "hold" | "stop";
                    /**
                     * @description go: may light and may charge. hold: do not light; if lit, add no wood, keep the curtain up and the pit attended. stop: no fire: put it down and cover.
                     * @enum {string}
                     */
                    to: "go" | "hold" | "stop";
                    reasons: components["schemas"]["Reason"][];
                    text: string;
                } | null;
            };
            /** @description the answer in one line */
            text: string;
            windows: components["schemas"]["Window"][];
        };
    };
    responses: never;
    parameters: never;
    requestBodies: never;
    headers: never;
    pathItems: never;
}
export type $defs = Record<string, never>;
export interface operations {
    getHealthz: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": {
                        /** @enum {boolean} */
                        alive: true;
                    };
                };
            };
        };
    };
    getReadyz: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Ready"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Ready"];
                };
            };
        };
    };
    getV1Sites: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Sites"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1Sites: {
        parameters: {
            query?: never;
            header?: {
                /** @description the same key with the same request acts once and gets the same reply */
                "idempotency-key"?: string;
            };
            path?: never;
            cookie?: never;
        };
        /** @description a site as in the configuration file */
        requestBody: {
            content: {
                "application/json": {
                    [key: string]: unknown;
                };
            };
        };
        responses: {
            /** @description Default Response */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definition"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SitesId: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Site"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    putV1SitesId: {
        parameters: {
            query?: never;
            header?: {
                /** @description the revision that this replaces, such as "r7" */
                "if-match"?: string;
                /** @description * for a new one */
                "if-none-match"?: string;
            };
            path: {
                id: string;
            };
            cookie?: never;
        };
        /** @description a site as in the configuration file */
        requestBody: {
            content: {
                "application/json": {
                    [key: string]: unknown;
                };
            };
        };
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definition"];
                };
            };
            /** @description Default Response */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definition"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    deleteV1SitesId: {
        parameters: {
            query?: never;
            header?: {
                /** @description the revision that this replaces, such as "r7" */
                "if-match"?: string;
            };
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description taken out */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SitesIdWindows: {
        parameters: {
            query?: {
                /** @description today, tomorrow or YYYY-MM-DD, in the time of the site */
                day?: string;
                /** @description a date (from its beginning; `to`: through its end) or an RFC 3339 instant with offset */
                from?: string;
                /** @description a date (from its beginning; `to`: through its end) or an RFC 3339 instant with offset */
                to?: string;
                /** @description US customary or SI units */
                units?: "us" | "si";
                /** @description language of the sentences */
                lang?: "en" | "es";
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Windows"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SitesIdHours: {
        parameters: {
            query?: {
                /** @description today, tomorrow or YYYY-MM-DD, in the time of the site */
                day?: string;
                /** @description a date (from its beginning; `to`: through its end) or an RFC 3339 instant with offset */
                from?: string;
                /** @description a date (from its beginning; `to`: through its end) or an RFC 3339 instant with offset */
                to?: string;
                /** @description US customary or SI units */
                units?: "us" | "si";
                /** @description language of the sentences */
                lang?: "en" | "es";
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Hours"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SitesIdPlan: {
        parameters: {
            query?: {
                /** @description today, tomorrow or YYYY-MM-DD, in the time of the site */
                day?: string;
                /** @description US customary or SI units */
                units?: "us" | "si";
                /** @description language of the sentences */
                lang?: "en" | "es";
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Plan"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getMetrics: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/plain": string;
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/plain": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/plain": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/plain": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1Plan: {
        parameters: {
            query?: {
                /** @description today, tomorrow or YYYY-MM-DD, in the time of the site */
                day?: string;
                /** @description US customary or SI units */
                units?: "us" | "si";
                /** @description language of the sentences */
                lang?: "en" | "es";
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": {
                    /** @description a site as in the configuration file; id, name and limits may be left out */
                    site: {
                        [key: string]: unknown;
                    };
                    /** @description a list of limits as in the configuration file */
                    limits?: {
                        [key: string]: unknown;
                    }[];
                } & {
                    [key: string]: unknown;
                };
            };
        };
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["WhatIf"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            502: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SitesIdDefinition: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definition"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SitesIdHistory: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definitions"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1LimitSets: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definitions"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1LimitSets: {
        parameters: {
            query?: never;
            header?: {
                /** @description the same key with the same request acts once and gets the same reply */
                "idempotency-key"?: string;
            };
            path?: never;
            cookie?: never;
        };
        /** @description a map with one entry: name → list of limits, as in the configuration file */
        requestBody: {
            content: {
                "application/json": {
                    [key: string]: {
                        [key: string]: unknown;
                    }[];
                };
            };
        };
        responses: {
            /** @description Default Response */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definition"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1LimitSetsId: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definition"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    putV1LimitSetsId: {
        parameters: {
            query?: never;
            header?: {
                /** @description the revision that this replaces, such as "r7" */
                "if-match"?: string;
                /** @description * for a new one */
                "if-none-match"?: string;
            };
            path: {
                id: string;
            };
            cookie?: never;
        };
        /** @description a list of limits as in the configuration file */
        requestBody: {
            content: {
                "application/json": {
                    [key: string]: unknown;
                }[];
            };
        };
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definition"];
                };
            };
            /** @description Default Response */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definition"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    deleteV1LimitSetsId: {
        parameters: {
            query?: never;
            header?: {
                /** @description the revision that this replaces, such as "r7" */
                "if-match"?: string;
            };
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description taken out */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1LimitSetsIdHistory: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definitions"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1Orders: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definitions"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1Orders: {
        parameters: {
            query?: never;
            header?: {
                /** @description the same key with the same request acts once and gets the same reply */
                "idempotency-key"?: string;
            };
            path?: never;
            cookie?: never;
        };
        /** @description an order as in the configuration file; its id is made of its name */
        requestBody: {
            content: {
                "application/json": {
                    [key: string]: unknown;
                };
            };
        };
        responses: {
            /** @description Default Response */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definition"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1OrdersId: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definition"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    putV1OrdersId: {
        parameters: {
            query?: never;
            header?: {
                /** @description the revision that this replaces, such as "r7" */
                "if-match"?: string;
                /** @description * for a new one */
                "if-none-match"?: string;
            };
            path: {
                id: string;
            };
            cookie?: never;
        };
        /** @description an order as in the configuration file */
        requestBody: {
            content: {
                "application/json": {
                    [key: string]: unknown;
                };
            };
        };
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definition"];
                };
            };
            /** @description Default Response */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definition"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    deleteV1OrdersId: {
        parameters: {
            query?: never;
            header?: {
                /** @description the revision that this replaces, such as "r7" */
                "if-match"?: string;
            };
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description taken out */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1OrdersIdHistory: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definitions"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1Contacts: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definitions"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1Contacts: {
        parameters: {
            query?: never;
            header?: {
                /** @description the same key with the same request acts once and gets the same reply */
                "idempotency-key"?: string;
            };
            path?: never;
            cookie?: never;
        };
        /** @description a contact as in the configuration file */
        requestBody: {
            content: {
                "application/json": {
                    [key: string]: unknown;
                };
            };
        };
        responses: {
            /** @description Default Response */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definition"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1ContactsId: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definition"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    putV1ContactsId: {
        parameters: {
            query?: never;
            header?: {
                /** @description the revision that this replaces, such as "r7" */
                "if-match"?: string;
                /** @description * for a new one */
                "if-none-match"?: string;
            };
            path: {
                id: string;
            };
            cookie?: never;
        };
        /** @description a contact as in the configuration file */
        requestBody: {
            content: {
                "application/json": {
                    [key: string]: unknown;
                };
            };
        };
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definition"];
                };
            };
            /** @description Default Response */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definition"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    deleteV1ContactsId: {
        parameters: {
            query?: never;
            header?: {
                /** @description the revision that this replaces, such as "r7" */
                "if-match"?: string;
            };
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description taken out */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1ContactsIdHistory: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Definitions"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SitesIdBurns: {
        parameters: {
            query?: {
                /** @description RFC 3339; a day ago where it is left out */
                from?: string;
                /** @description RFC 3339; now where it is left out */
                to?: string;
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Burns"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1SitesIdBurns: {
        parameters: {
            query?: never;
            header?: {
                /** @description the same as `id`, where the body has none */
                "idempotency-key"?: string;
            };
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": {
                    /** @description made where it is tapped: the same tap sent again counts once; another tap under it is refused with 409 */
                    id?: string;
                    /**
                     * @description lit, charging, burning-down, covered; put-out-early: put out before it had burned down, and still to be covered
                     * @enum {string}
                     */
                    tap: "lit" | "charging" | "burning-down" | "covered" | "put-out-early";
                    /** @description when it was tapped; now where it is left out */
                    at?: string;
                    /** @description who tapped; the name of the key where it is left out */
                    by?: string;
                    /**
                     * @default api
                     * @enum {string}
                     */
                    from?: "phone" | "page" | "text" | "api";
                    /** @description the tap that this one replaces */
                    corrects?: string;
                    /**
                     * @description true: what it corrects did not happen
                     * @default false
                     */
                    withdraws?: boolean;
                    /** @default  */
                    note?: string;
                };
            };
        };
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Burn"];
                };
            };
            /** @description Default Response */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Burn"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1SitesIdBurnsBurnTaps: {
        parameters: {
            query?: never;
            header?: {
                /** @description the same as `id`, where the body has none */
                "idempotency-key"?: string;
            };
            path: {
                id: string;
                burn: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": {
                    /** @description made where it is tapped: the same tap sent again counts once; another tap under it is refused with 409 */
                    id?: string;
                    /**
                     * @description lit, charging, burning-down, covered; put-out-early: put out before it had burned down, and still to be covered
                     * @enum {string}
                     */
                    tap: "lit" | "charging" | "burning-down" | "covered" | "put-out-early";
                    /** @description when it was tapped; now where it is left out */
                    at?: string;
                    /** @description who tapped; the name of the key where it is left out */
                    by?: string;
                    /**
                     * @default api
                     * @enum {string}
                     */
                    from?: "phone" | "page" | "text" | "api";
                    /** @description the tap that this one replaces */
                    corrects?: string;
                    /**
                     * @description true: what it corrects did not happen
                     * @default false
                     */
                    withdraws?: boolean;
                    /** @default  */
                    note?: string;
                };
            };
        };
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Burn"];
                };
            };
            /** @description Default Response */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Burn"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SitesIdBurnsBurn: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
                burn: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Burn"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    putV1SitesIdBurnsBurnIncident: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
                burn: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                /**
                 * @example {
                 *       "reference": "CAD-2026-004711"
                 *     }
                 */
                "application/json": {
                    /** @description your own name of the incident; null takes it back */
                    reference: string | null;
                };
            };
        };
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Burn"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SitesIdObservations: {
        parameters: {
            query?: {
                /** @description RFC 3339; a day ago where it is left out */
                from?: string;
                /** @description RFC 3339; now where it is left out */
                to?: string;
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Observations"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1SitesIdObservations: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        /** @description a reading, or a list of readings; see README.md for its fields */
        requestBody: {
            content: {
                "application/json": {
                    [key: string]: unknown;
                } | unknown[];
            };
        };
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Observed"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SitesIdNow: {
        parameters: {
            query?: {
                /** @description US customary or SI units */
                units?: "us" | "si";
                /** @description language of the sentences */
                lang?: "en" | "es";
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Now"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1Notices: {
        parameters: {
            query?: {
                /** @description US customary or SI units */
                units?: "us" | "si";
                /** @description language of the sentences */
                lang?: "en" | "es";
                site?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Notices"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SitesIdMessages: {
        parameters: {
            query?: {
                /** @description RFC 3339; a day ago where it is left out */
                from?: string;
                /** @description RFC 3339; now where it is left out */
                to?: string;
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Messages"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1SitesIdDrill: {
        parameters: {
            query?: never;
            header?: {
                /** @description the same key with the same request acts once and gets the same reply */
                "idempotency-key"?: string;
            };
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            202: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Message"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1MessagesMessageAnswers: {
        parameters: {
            query?: never;
            header?: {
                /** @description the same key with the same request acts once and gets the same reply */
                "idempotency-key"?: string;
            };
            path: {
                message: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": {
                    /**
                     * @description cannot: not able to do it; the next is told at once
                     * @enum {string}
                     */
                    answer: "got-it" | "cannot";
                    /** @description which contact answers */
                    by?: string;
                };
            };
        };
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Message"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SitesIdNowStream: {
        parameters: {
            query?: {
                /** @description US customary or SI units */
                units?: "us" | "si";
                /** @description language of the sentences */
                lang?: "en" | "es";
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/event-stream": string;
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/event-stream": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/event-stream": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/event-stream": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/event-stream": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/event-stream": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/event-stream": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1Silences: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Silences"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1Silences: {
        parameters: {
            query?: never;
            header?: {
                /** @description the same key with the same request acts once and gets the same reply */
                "idempotency-key"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": {
                    site: string;
                    /** @description of the conditions; all of the site where it is left out */
                    code?: string;
                    minutes: number;
                    reason: string;
                };
            };
        };
        responses: {
            /** @description Default Response */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Silence"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    deleteV1SilencesSilence: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                silence: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Silence"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SmokeSources: {
        parameters: {
            query: {
                /** @description US customary or SI units */
                units?: "us" | "si";
                /** @description language of the sentences */
                lang?: "en" | "es";
                /** @description latitude,longitude in decimal degrees, or degrees and minutes with letters */
                at: string;
                /** @description RFC 3339 with offset; now where it is left out */
                time?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["SmokeSources"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SitesIdBurnsCsv: {
        parameters: {
            query?: {
                /** @description RFC 3339; a day ago where it is left out */
                from?: string;
                /** @description RFC 3339; now where it is left out */
                to?: string;
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example site,burn,state,opened_at,lit_at,closed_at,since,lit_tapped_at,charging_tapped_at,burning_down_tapped_at,put_out_early_tapped_at,covered_tapped_at,tapped_by,notes
                     *     north-block,burn-8c1f,lit,2026-04-14T10:05:00-07:00,2026-04-14T10:05:00-07:00,,2026-04-14T10:05:00-07:00,2026-04-14T10:05:00-07:00,,,,,Ana,
                     */
                    "text/csv; charset=utf-8; header=present": string;
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/csv; charset=utf-8; header=present": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/csv; charset=utf-8; header=present": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/csv; charset=utf-8; header=present": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/csv; charset=utf-8; header=present": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/csv; charset=utf-8; header=present": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/csv; charset=utf-8; header=present": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SitesIdWindowsCsv: {
        parameters: {
            query?: {
                /** @description today, tomorrow or YYYY-MM-DD, in the time of the site */
                day?: string;
                /** @description a date (from its beginning; `to`: through its end) or an RFC 3339 instant with offset */
                from?: string;
                /** @description a date (from its beginning; `to`: through its end) or an RFC 3339 instant with offset */
                to?: string;
                /** @description US customary or SI units */
                units?: "us" | "si";
                /** @description language of the sentences */
                lang?: "en" | "es";
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example site,verdict,from,to,standing,light_up_by,unknown,reason_code,reason,tightest_element,tightest_at,tightest_value,tightest_bound,tightest_room,tightest_unit,tightest_source
                     *     north-block,go,2026-04-14T09:00:00-07:00,2026-04-14T14:30:00-07:00,light,2026-04-14T14:00:00-07:00,false,within-limits,Within all limits.,windSpeed,2026-04-14T13:00:00-07:00,9,12,3,mph,our rule
                     */
                    "text/csv; charset=utf-8; header=present": string;
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/csv; charset=utf-8; header=present": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/csv; charset=utf-8; header=present": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/csv; charset=utf-8; header=present": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/csv; charset=utf-8; header=present": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/csv; charset=utf-8; header=present": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/csv; charset=utf-8; header=present": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SitesGeojson: {
        parameters: {
            query?: {
                /** @description US customary or SI units */
                units?: "us" | "si";
                /** @description language of the sentences */
                lang?: "en" | "es";
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["SiteMap"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SmokeGeojson: {
        parameters: {
            query?: {
                /** @description US customary or SI units */
                units?: "us" | "si";
                /** @description language of the sentences */
                lang?: "en" | "es";
                /** @description how far sectors are drawn, in metres; smoke may go farther */
                reachM?: number;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["SmokeMap"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1NoticesGeojson: {
        parameters: {
            query?: {
                /** @description US customary or SI units */
                units?: "us" | "si";
                /** @description language of the sentences */
                lang?: "en" | "es";
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["NoticeMap"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1Events: {
        parameters: {
            query?: {
                /** @description US customary or SI units */
                units?: "us" | "si";
                /** @description language of the sentences */
                lang?: "en" | "es";
                site?: string;
                /** @description of these types only, with commas between */
                types?: string;
                /** @description id of the last event that you have; the oldest that is kept where it is left out */
                after?: string;
                most?: number;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Events"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1Subscriptions: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Subscriptions"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1Subscriptions: {
        parameters: {
            query?: never;
            header?: {
                /** @description the same key with the same request acts once and gets the same reply */
                "idempotency-key"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": {
                    /** @description https, at a public address; others where the operator allows them */
                    url: string;
                    /**
                     * @description plain: type, timestamp, data. cloudevents: CloudEvents 1.0, structured mode
                     * @default plain
                     * @enum {string}
                     */
                    format?: "plain" | "cloudevents";
                    /** @default  */
                    description?: string;
                    /**
                     * @description false: it waits, and goes on where it stood
                     * @default true
                     */
                    active?: boolean;
                    /**
                     * @description of these alone; null: all that the key may see
                     * @default null
                     */
                    sites?: string[] | null;
                    /**
                     * @description of sites that lie there, as they lie now
                     * @default null
                     */
                    area?: ({
                        circle: {
                            lat: number;
                            lon: number;
                            radiusKm: number;
                        };
                    } | {
                        /** @description a west that lies east of its east goes over the antimeridian */
                        box: {
                            south: number;
                            west: number;
                            north: number;
                            east: number;
                        };
                    }) | null;
                    /**
                     * @description null: all
                     * @default null
                     */
                    types?: ("verdict-changed" | "window-changed" | "reason-changed" | "forecast-stale" | "forecast-fresh" | "burn-lit" | "burn-charging" | "burn-burning-down" | "burn-covered" | "burn-put-out-early" | "burn-corrected" | "burn-incident" | "notice-raised" | "notice-updated" | "notice-ended" | "order-added" | "order-changed" | "order-lifted" | "subscription-ended")[] | null;
                };
            };
        };
        responses: {
            /** @description Default Response */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Subscription"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SubscriptionsId: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Subscription"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    putV1SubscriptionsId: {
        parameters: {
            query?: never;
            header?: {
                /** @description the revision that this replaces, such as "r7" */
                "if-match"?: string;
            };
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": {
                    /** @description https, at a public address; others where the operator allows them */
                    url: string;
                    /**
                     * @description plain: type, timestamp, data. cloudevents: CloudEvents 1.0, structured mode
                     * @default plain
                     * @enum {string}
                     */
                    format?: "plain" | "cloudevents";
                    /** @default  */
                    description?: string;
                    /**
                     * @description false: it waits, and goes on where it stood
                     * @default true
                     */
                    active?: boolean;
                    /**
                     * @description of these alone; null: all that the key may see
                     * @default null
                     */
                    sites?: string[] | null;
                    /**
                     * @description of sites that lie there, as they lie now
                     * @default null
                     */
                    area?: ({
                        circle: {
                            lat: number;
                            lon: number;
                            radiusKm: number;
                        };
                    } | {
                        /** @description a west that lies east of its east goes over the antimeridian */
                        box: {
                            south: number;
                            west: number;
                            north: number;
                            east: number;
                        };
                    }) | null;
                    /**
                     * @description null: all
                     * @default null
                     */
                    types?: ("verdict-changed" | "window-changed" | "reason-changed" | "forecast-stale" | "forecast-fresh" | "burn-lit" | "burn-charging" | "burn-burning-down" | "burn-covered" | "burn-put-out-early" | "burn-corrected" | "burn-incident" | "notice-raised" | "notice-updated" | "notice-ended" | "order-added" | "order-changed" | "order-lifted" | "subscription-ended")[] | null;
                };
            };
        };
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Subscription"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    deleteV1SubscriptionsId: {
        parameters: {
            query?: never;
            header?: {
                /** @description the revision that this replaces, such as "r7" */
                "if-match"?: string;
            };
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description taken out */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SubscriptionsIdDeliveries: {
        parameters: {
            query?: {
                /** @description number of the last one that you have */
                before?: number;
                most?: number;
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["HookDeliveries"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1SubscriptionsIdRotate: {
        parameters: {
            query?: never;
            header?: {
                /** @description the same key with the same request acts once and gets the same reply */
                "idempotency-key"?: string;
                /** @description the revision that this replaces, such as "r7" */
                "if-match"?: string;
            };
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": {
                    /**
                     * @description for so long both secrets sign; 0: the one before ends now
                     * @default 24
                     */
                    overlapHours?: number;
                };
            };
        };
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Subscription"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1SubscriptionsIdReplay: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": {
                    /** @description what came after this event is sent anew, under the same ids */
                    after: string;
                };
            };
        };
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Subscription"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1SubscriptionsIdTest: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["TriedDelivery"];
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1EventsStream: {
        parameters: {
            query?: {
                /** @description US customary or SI units */
                units?: "us" | "si";
                /** @description language of the sentences */
                lang?: "en" | "es";
                site?: string;
                /** @description of these types only, with commas between */
                types?: string;
                /** @description id of the last event that you have; what comes from now on where it is left out. `Last-Event-ID` goes before it */
                after?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example retry: 3000
                     *
                     *     id: 4700
                     *     event: position
                     *     data: {"position":"4700"}
                     *
                     *     id: 4711
                     *     data: {"id":"4711","type":"burn-lit","at":"2026-04-14T10:05:00-07:00","site":"north-block","siteName":"North block, pit 1","place":{"lat":36.438,"lon":-120.231},"externalRef":"PIT-17","incidentRef":"CAD-2026-004711","subject":"burn-8c1f","validUntil":null,"verdict":null,"text":"Lit: 10:05 am, tapped by Ana.","data":{"burn":"burn-8c1f","tap":"lit","tappedAt":"2026-04-14T10:05:00-07:00","by":"Ana"}}
                     */
                    "text/event-stream": string;
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/event-stream": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/event-stream": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/event-stream": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/event-stream": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/event-stream": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/event-stream": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1CapAtom: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description an Atom feed (RFC 4287), newest first */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /** @example <feed xmlns="http://www.w3.org/2005/Atom"><id>urn:uuid:3f0c2b6e-5d1a-8c77-9b42-0e6f1d2a7c55</id>…</feed> */
                    "application/atom+xml": string;
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/atom+xml": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/atom+xml": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/atom+xml": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/atom+xml": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/atom+xml": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1CapId: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description the identifier of a message, as the index and its references have it */
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description a message of the Common Alerting Protocol 1.2 */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /** @example <alert xmlns="urn:oasis:names:tc:emergency:cap:1.2"><identifier>pitward.own.4be1…</identifier>…</alert> */
                    "application/cap+xml": string;
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/cap+xml": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/cap+xml": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/cap+xml": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/cap+xml": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/cap+xml": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/cap+xml": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1WindowsIcs: {
        parameters: {
            query?: {
                lang?: "en" | "es";
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example BEGIN:VCALENDAR
                     *     VERSION:2.0
                     *     PRODID:-//Pitward//Go windows//EN
                     *     CALSCALE:GREGORIAN
                     *     NAME:Go windows: North block\, pit 1
                     *     REFRESH-INTERVAL;VALUE=DURATION:PT15M
                     *     BEGIN:VEVENT
                     *     UID:b5b1f6a0-7a60-4c0c-9f0a-6b3f4c3f8f10
                     *     DTSTAMP:20260413T110500Z
                     *     LAST-MODIFIED:20260413T110500Z
                     *     SEQUENCE:2
                     *     STATUS:TENTATIVE
                     *     DTSTART:20260414T160000Z
                     *     DTEND:20260414T213000Z
                     *     SUMMARY:Go by forecast: North block\, pit 1
                     *     END:VEVENT
                     *     END:VCALENDAR
                     */
                    "text/calendar; charset=utf-8": string;
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/calendar; charset=utf-8": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/calendar; charset=utf-8": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/calendar; charset=utf-8": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/calendar; charset=utf-8": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/calendar; charset=utf-8": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1SitesIdWindowsIcs: {
        parameters: {
            query?: {
                lang?: "en" | "es";
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example BEGIN:VCALENDAR
                     *     VERSION:2.0
                     *     PRODID:-//Pitward//Go windows//EN
                     *     CALSCALE:GREGORIAN
                     *     NAME:Go windows: North block\, pit 1
                     *     REFRESH-INTERVAL;VALUE=DURATION:PT15M
                     *     BEGIN:VEVENT
                     *     UID:b5b1f6a0-7a60-4c0c-9f0a-6b3f4c3f8f10
                     *     DTSTAMP:20260413T110500Z
                     *     LAST-MODIFIED:20260413T110500Z
                     *     SEQUENCE:2
                     *     STATUS:TENTATIVE
                     *     DTSTART:20260414T160000Z
                     *     DTEND:20260414T213000Z
                     *     SUMMARY:Go by forecast: North block\, pit 1
                     *     END:VEVENT
                     *     END:VCALENDAR
                     */
                    "text/calendar; charset=utf-8": string;
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/calendar; charset=utf-8": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/calendar; charset=utf-8": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/calendar; charset=utf-8": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/calendar; charset=utf-8": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/calendar; charset=utf-8": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/calendar; charset=utf-8": components["schemas"]["Problem"];
                };
            };
        };
    };
    getV1CalendarFeed: {
        parameters: {
            query?: {
                lang?: "en" | "es";
            };
            header?: never;
            path: {
                /** @description a key of "pitward key new --calendar"; it opens nothing else */
                feed: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example BEGIN:VCALENDAR
                     *     VERSION:2.0
                     *     PRODID:-//Pitward//Go windows//EN
                     *     CALSCALE:GREGORIAN
                     *     NAME:Go windows: North block\, pit 1
                     *     REFRESH-INTERVAL;VALUE=DURATION:PT15M
                     *     BEGIN:VEVENT
                     *     UID:b5b1f6a0-7a60-4c0c-9f0a-6b3f4c3f8f10
                     *     DTSTAMP:20260413T110500Z
                     *     LAST-MODIFIED:20260413T110500Z
                     *     SEQUENCE:2
                     *     STATUS:TENTATIVE
                     *     DTSTART:20260414T160000Z
                     *     DTEND:20260414T213000Z
                     *     SUMMARY:Go by forecast: North block\, pit 1
                     *     END:VEVENT
                     *     END:VCALENDAR
                     */
                    "text/calendar; charset=utf-8": string;
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/calendar; charset=utf-8": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/calendar; charset=utf-8": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/calendar; charset=utf-8": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1InboundChannel: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                channel: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": {
                    /** @description the same for a repeat of the same text; without one those of a minute are one */
                    id?: string;
                    messageId?: string;
                    /** @description the number of whoever wrote, with + and country code */
                    from?: string;
                    sender?: string;
                    text?: string;
                    message?: string;
                    body?: string;
                } & {
                    [key: string]: unknown;
                };
            };
        };
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": {
                        /** @description what it was taken for */
                        taken: string;
                    };
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
    postV1ReceiptsChannel: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                channel: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": {
                    /** @description what the gateway called the text when it took it */
                    reference?: string;
                    messageId?: string;
                    id?: string;
                    /** @description delivered, undelivered, failed, rejected, expired, deleted, or one of the states of SMPP 3.4 (DELIVRD, UNDELIV …); any other is none yet */
                    state?: string;
                    status?: string;
                    /** @description why, as the network says */
                    code?: string;
                    error?: string;
                } & {
                    [key: string]: unknown;
                };
            };
        };
        responses: {
            /** @description Default Response */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": {
                        /**
                         * @description what it was taken for
                         * @enum {string}
                         */
                        taken: "delivered" | "undelivered" | "pending";
                    };
                };
            };
            /** @description Default Response */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
            /** @description Default Response */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Problem"];
                };
            };
        };
    };
}
