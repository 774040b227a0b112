// Made from docs/openapi.json by npm run api. Not to be edited.
export interface paths {
    "/api/shop": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** The builds of the shop */
        get: operations["getShop"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/shop/questions": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** What to ask for a new build */
        get: operations["getQuestions"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/shop/builds": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Make a build */
        post: operations["addBuild"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/shop/archive": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Put a build into the archive or take it out */
        post: operations["archiveBuild"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        /** The build as it stands */
        get: operations["getBuild"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        /** Change the build */
        patch: operations["patchBuild"];
        trace?: never;
    };
    "/api/builds/{id}/file": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        /** The build file, byte for byte */
        get: operations["getFile"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/report": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        /** What was found */
        get: operations["getReport"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/scene": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        /** What is drawn, as drawn */
        get: operations["getScene"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/picture.svg": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        /** A side elevation */
        get: operations["getPicture"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/pose": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Where everything is with the axles moved or the truck settled */
        post: operations["askPose"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/trial": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** What the sheet of one work would tell with a patch applied or a change made, without the search for cures; keeps nothing */
        post: operations["tryPatch"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/undo": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Go back to the entry before */
        post: operations["undo"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/redo": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Go forth to what was undone last */
        post: operations["redo"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/restore": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Go back to any entry, by a new one */
        post: operations["restore"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/change": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Rename, copy, mirror or take out a thing */
        post: operations["changeThing"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/history": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        /** What was done, newest first */
        get: operations["getHistory"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/versions": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Name an entry */
        post: operations["nameVersion"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/dependants": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        /** What names a thing */
        get: operations["getDependants"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/next": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        /** What to measure next, most telling first */
        get: operations["getNext"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/frame/drawing": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        /** The frame's shape and stress under one load case, as it came and as planned */
        get: operations["getFrameDrawing"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/frame/sections": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        /** The sections of the frame as planned, to draw */
        get: operations["getFrameSections"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/compare": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        /** Two variants side by side */
        get: operations["compare"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/builds/{id}/events": {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        /** What happens to the build, as server-sent events */
        get: operations["listen"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/understand": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** How a quantity is read */
        get: operations["understand"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/schema": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** The JSON Schema of the build file */
        get: operations["getSchema"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/openapi.json": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** This document */
        get: operations["getOpenApi"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/pair": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Pair this screen */
        post: operations["pair"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/door": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Whether this screen is paired, and need be */
        get: operations["getDoor"];
        put?: never;
        post?: never;
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
        /** @enum {string} */
        Verdict: "good" | "look" | "stop";
        /** @description In the chassis datum axes V: x forward, y left, z up; metres. */
        Vector: [
            number,
            number,
            number
        ];
        /** @description JSON pointer (RFC 6901) into the build file. */
        Path: string;
        /** @description Entity tag without its quotes: the first 16 hexadecimal digits of the SHA-256 of the file's text. */
        Tag: string;
        /** @description The build file as it stands; its schema is at /api/schema. */
        Document: Record<string, never>;
        /** @description A value in SI with its ready text in the build's units; si null: not known. */
        Number: {
            si: number | null;
            text: string;
        };
        Diagnostic: {
            code: string;
            path: components["schemas"]["Path"];
            line?: number;
            column?: number;
            message: string;
            remedy: string;
        };
        Error: {
            /** @description In words for the builder. */
            error: string;
            diagnostics: components["schemas"]["Diagnostic"][];
            etag?: components["schemas"]["Tag"];
        };
        /** @description A value that others changed in the meantime. */
        Conflict: {
            path: components["schemas"]["Path"];
            /** @description As it was; null: not there. */
            base: unknown;
            /** @description As others have made it; null: taken out. */
            theirs: unknown;
            /** @description As it was wanted; null: taken out. */
            yours: unknown;
        };
        ConflictError: {
            error: string;
            diagnostics: components["schemas"]["Diagnostic"][];
            conflicts: components["schemas"]["Conflict"][];
            etag: components["schemas"]["Tag"];
        };
        /** @description Something that names another thing. */
        Dependant: {
            path: components["schemas"]["Path"];
            label: string;
        };
        DependantsError: {
            error: string;
            diagnostics: components["schemas"]["Diagnostic"][];
            dependants: components["schemas"]["Dependant"][];
        };
        /** @description One of the places that are stressed most. near_joint, distorts: more comes on top, which beams do not have. */
        StressPlace: {
            where: string;
            path: components["schemas"]["Path"];
            case: string;
            von_mises: components["schemas"]["Number"];
            axial: components["schemas"]["Number"];
            yield: components["schemas"]["Number"];
            share_of_yield: components["schemas"]["Number"];
            near_joint: boolean;
            distorts: boolean;
        };
        /** @description Something that is fixed to the planned frame, and the greatest stress over all cases of the rail or crossmember that carries it, where it does. side: middle also where it has none. near_joint, distorts: as StressPlace. */
        FixedPoint: {
            label: string;
            path: components["schemas"]["Path"];
            /** @enum {string} */
            side: "left" | "right" | "middle";
            where: string;
            case: string;
            von_mises: components["schemas"]["Number"];
            yield: components["schemas"]["Number"];
            share_of_yield: components["schemas"]["Number"];
            near_joint: boolean;
            distorts: boolean;
        };
        /** @description What a place of the frame does: its displacement (m), its section's turn (rad), von Mises' greatest stress in the section (Pa), its share of yield (null: not known) and its level on the drawing's scale. */
        FrameMotion: {
            d: components["schemas"]["Vector"];
            r: components["schemas"]["Vector"];
            stress: number;
            share: number | null;
            level: number;
        };
        /** @description A place on a member's reference line; before or after null: the member is not in. */
        FramePoint: {
            p: components["schemas"]["Vector"];
            before: components["schemas"]["FrameMotion"] | null;
            after: components["schemas"]["FrameMotion"] | null;
        };
        /** @description A straight stretch of one section: corners of the box about it, from each point, and the points from end to end. */
        FramePiece: {
            corners: components["schemas"]["Vector"][];
            points: components["schemas"]["FramePoint"][];
        };
        FrameMember: {
            path: components["schemas"]["Path"];
            label: string;
            before: boolean;
            after: boolean;
            pieces: components["schemas"]["FramePiece"][];
        };
        /** @description The worst place, where it is and how it moves (m), and the greatest displacement. */
        FrameDrawnState: {
            worst: components["schemas"]["StressPlace"];
            p: components["schemas"]["Vector"];
            d: components["schemas"]["Vector"];
            most: components["schemas"]["Number"];
        };
        /** @description The frame under one case. Displacements are those from the axle lines; a shape is drawn as p + exaggeration * d. levels: lower ends of the levels of stress, the last without an upper end. left_out: why there is no before; else empty. */
        FrameDrawing: {
            case: string;
            label: string;
            exaggeration: number;
            levels: components["schemas"]["Number"][];
            before: components["schemas"]["FrameDrawnState"] | null;
            after: components["schemas"]["FrameDrawnState"];
            left_out: string;
            members: components["schemas"]["FrameMember"][];
        };
        /** @description A place in a section (y, z), m. */
        SectionSpot: number[];
        /** @description A section in its own axes: y to the left as it is seen, z up. Walls by their midlines. */
        FrameSection: {
            where: string[];
            paths: components["schemas"]["Path"][];
            seen: string;
            walls: {
                thickness: number;
                points: components["schemas"]["SectionSpot"][];
            }[];
            centroid: components["schemas"]["SectionSpot"];
            shear_centre: components["schemas"]["SectionSpot"];
            numbers: {
                id: string;
                label: string;
                value: components["schemas"]["Number"];
            }[];
        };
        /** @description The frame with some of its parts in: as it came, as planned, after a stage. Shares are of the energy held; what the joints hold is the rest. */
        FrameState: {
            id: string;
            label: string;
            path: components["schemas"]["Path"];
            mass: components["schemas"]["Number"];
            twist: components["schemas"]["Number"];
            bending: components["schemas"]["Number"];
            lozenging: components["schemas"]["Number"];
            members: {
                id: string;
                label: string;
                mass: components["schemas"]["Number"];
                twist_share: components["schemas"]["Number"];
                bending_share: components["schemas"]["Number"];
                lozenging_share: components["schemas"]["Number"];
            }[];
            assumptions: {
                path: components["schemas"]["Path"];
                words: string;
            }[];
        };
        StageStress: {
            where: string;
            path: components["schemas"]["Path"];
            von_mises: components["schemas"]["Number"];
            yield: components["schemas"]["Number"];
        };
        /** @description height: greatest of a rail between the stands, + up. diagonals: left front to right rear less the other, how that changes. */
        StageChange: {
            height: components["schemas"]["Number"];
            height_at: string;
            diagonals: components["schemas"]["Number"];
            stress: components["schemas"]["StageStress"];
        };
        /** @description What a stage takes out, all at once. spring: of the left rail against the right one where the part was, + apart, up, ahead. */
        StageCut: {
            stands: {
                label: string;
                before: components["schemas"]["Number"];
                after: components["schemas"]["Number"];
                lifted: boolean;
            }[];
            parts: {
                path: components["schemas"]["Path"];
                label: string;
                first: string;
                second: string;
                spring: {
                    apart: components["schemas"]["Number"];
                    height: components["schemas"]["Number"];
                    ahead: components["schemas"]["Number"];
                } | null;
            }[];
            braces: components["schemas"]["Path"][];
            before: components["schemas"]["StageStress"];
            after: components["schemas"]["StageChange"];
            without_brace: components["schemas"]["StageChange"] | null;
        };
        FrameReport: {
            states: components["schemas"]["FrameState"][];
            stages: {
                id: string;
                label: string;
                path: components["schemas"]["Path"];
                cut: components["schemas"]["StageCut"] | null;
            }[];
            cases: {
                id: string;
                label: string;
                basis: string;
                state: string;
                worst: components["schemas"]["StressPlace"] | null;
            }[];
            worst: components["schemas"]["StressPlace"][];
            points: components["schemas"]["FixedPoint"][];
            left_out: {
                label: string;
                why: string;
            }[];
        };
        /** @description For axis ticks. */
        Units: {
            metric: boolean;
            fraction_of_inch: number;
            per_si: {
                [key: string]: {
                    unit: string;
                    factor: number;
                };
            };
        };
        Verdicts: {
            good: number;
            look: number;
            stop: number;
        };
        /** @description A build in the list. verdicts null: the file can't be read, and has that many faults. */
        Listing: {
            id: components["schemas"]["Id"];
            name: string;
            file: string;
            notice: string;
            etag: string;
            /** Format: date-time */
            changed: string;
            verdicts: components["schemas"]["Verdicts"] | null;
            faults: number;
            archived: boolean;
        };
        Id: string;
        Shop: {
            folder: string;
            /** @description One file alone: nothing can be added or archived. */
            single: boolean;
            lan: boolean;
            builds: components["schemas"]["Listing"][];
        };
        Question: {
            id: string;
            label: string;
            doc: string;
            /** @enum {string} */
            kind: "quantity" | "word" | "text";
            dimension: string;
            choices: {
                value: string;
                label: string;
            }[];
            usual: string | null;
            needed: boolean;
        };
        /** @description From answers, as a copy, or imported. */
        NewBuild: {
            name: string;
            answers?: {
                [key: string]: string;
            };
            copy_of?: string;
            text?: string;
        } & (unknown | unknown | unknown);
        BuildAnswer: {
            etag: components["schemas"]["Tag"];
            entry: number;
            file: string;
            document: components["schemas"]["Document"];
            units: components["schemas"]["Units"];
            can_undo: boolean;
            can_redo: boolean;
            /** @description The file was changed outside to something that can't be read; the document is the last good one. */
            fault: {
                diagnostics: components["schemas"]["Diagnostic"][];
            } | null;
        };
        ChangeAnswer: {
            etag: components["schemas"]["Tag"];
            entry: number;
            document: components["schemas"]["Document"];
            report: components["schemas"]["Report"];
            scene: components["schemas"]["Scene"];
            /** @description Made on an older state, and stands in the newest. */
            merged: boolean;
            can_undo: boolean;
            can_redo: boolean;
            path?: components["schemas"]["Path"];
        };
        /** @description One operation of a JSON Patch (RFC 6902). */
        Operation: {
            /** @enum {string} */
            op: "add" | "remove" | "replace" | "move" | "copy" | "test";
            path: components["schemas"]["Path"];
            from?: components["schemas"]["Path"];
            value?: unknown;
        };
        Patch: components["schemas"]["Operation"][];
        Change: {
            /** @constant */
            kind: "rename";
            path: components["schemas"]["Path"];
            to: string;
        } | {
            /** @constant */
            kind: "copy";
            path: components["schemas"]["Path"];
            to: string;
        } | {
            /** @constant */
            kind: "mirror";
            path: components["schemas"]["Path"];
        } | {
            /** @constant */
            kind: "remove";
            path: components["schemas"]["Path"];
            with_dependants?: boolean;
        } | {
            /** @constant */
            kind: "move_cases";
            path?: components["schemas"]["Path"];
            rearward?: string;
            left?: string;
            up?: string;
            tilt?: string;
        };
        HistoryEntry: {
            entry: number;
            parent: number | null;
            /** Format: date-time */
            when: string;
            who: string;
            /** @enum {string} */
            kind: "start" | "edit" | "outside" | "restore";
            what: string;
            version: string | null;
            /** @description The head, or one that the head was made on. */
            on_path: boolean;
        };
        History: {
            head: number;
            entries: components["schemas"]["HistoryEntry"][];
        };
        /** @description The data of a `head` event. */
        HeadEvent: {
            etag: components["schemas"]["Tag"];
            entry: number;
            screen: string;
            who: string;
        };
        Understood: {
            si: number;
            text: string;
            written: string;
            also: string;
        };
        Side: {
            label: string;
            report: components["schemas"]["Report"];
            scene: components["schemas"]["Scene"];
        };
        Comparison: {
            a: components["schemas"]["Side"];
            b: components["schemas"]["Side"];
            inputs: {
                path: components["schemas"]["Path"];
                label: string;
                a: string;
                b: string;
            }[];
            words: string[];
        };
        /** @description Something to measure, and what it moves. */
        Reading: {
            path: components["schemas"]["Path"];
            label: string;
            now: string;
            plus_minus: string;
            moves: {
                finding: string;
                sentence: string;
                by: string;
            }[];
        };
        AxleLoad: {
            axle: string;
            left: components["schemas"]["Number"];
            right: components["schemas"]["Number"];
            total: components["schemas"]["Number"];
            rating: components["schemas"]["Number"] | null;
            measured: components["schemas"]["MeasuredLoad"];
            verdict: components["schemas"]["Verdict"] | null;
        };
        /** @description What the corner scales read in this load state. */
        MeasuredLoad: {
            left: components["schemas"]["Number"];
            right: components["schemas"]["Number"];
        } | null;
        Corner: {
            axle: string;
            /** @enum {string} */
            side: "left" | "right";
            height_error: components["schemas"]["Number"];
            load: components["schemas"]["Number"];
        };
        StateReport: {
            id: string;
            label: string;
            total: components["schemas"]["Number"];
            plus_minus: components["schemas"]["Number"];
            cg: {
                station: components["schemas"]["Number"];
                offset: components["schemas"]["Number"];
                height: components["schemas"]["Number"];
            };
            p_VoCm: components["schemas"]["Vector"];
            sprung: components["schemas"]["Number"];
            unsprung: {
                axle: string;
                mass: components["schemas"]["Number"];
            }[];
            loads: components["schemas"]["AxleLoad"][];
            stability: {
                factor: components["schemas"]["Number"];
                tilt: components["schemas"]["Number"];
                side_slope: components["schemas"]["Number"];
                up_grade: components["schemas"]["Number"];
                down_grade: components["schemas"]["Number"];
            };
            settled: {
                heave: components["schemas"]["Number"];
                roll: components["schemas"]["Number"];
                pitch: components["schemas"]["Number"];
                corners: components["schemas"]["Corner"][];
            } | null;
            sentence: string;
            shares: {
                front: components["schemas"]["Number"];
                left: components["schemas"]["Number"];
                cross: components["schemas"]["Number"];
            };
            explained: components["schemas"]["Explained"][];
        };
        Explained: {
            id: string;
            label: string;
            explain: string;
            usual: string;
            working: components["schemas"]["WorkingStep"][];
        };
        WorkingStep: {
            formula: string;
            with_values: string;
            source: string;
            input_paths: components["schemas"]["Path"][];
        };
        Row: {
            id: string;
            label: string;
            value: components["schemas"]["Number"];
            verdict: components["schemas"]["Verdict"] | null;
            low: components["schemas"]["Number"] | null;
            high: components["schemas"]["Number"] | null;
            finding: string | null;
            explain: string;
            usual: string;
            working: components["schemas"]["WorkingStep"][];
        };
        Curve: {
            id: string;
            label: string;
            x_label: string;
            x: number[];
            y: (number | null)[];
            x_dimension: string;
            y_dimension: string;
            low: number | null;
            high: number | null;
        };
        Seat: {
            name: string;
            path: components["schemas"]["Path"];
            load: components["schemas"]["Number"];
            free: components["schemas"]["Number"];
            loaded: components["schemas"]["Number"];
            drawn: components["schemas"]["Number"];
            tack: components["schemas"]["Number"];
            below_free: components["schemas"]["Number"];
            move: components["schemas"]["Number"];
            bump_left: components["schemas"]["Number"];
            frequency: components["schemas"]["Number"];
            sentence: string;
            working: components["schemas"]["WorkingStep"][];
        };
        LinkReport: {
            name: string;
            path: components["schemas"]["Path"];
            force: components["schemas"]["Number"];
            swing_frame: components["schemas"]["Number"];
            swing_axle: components["schemas"]["Number"];
            limit: components["schemas"]["Number"] | null;
        };
        AxleReport: {
            id: string;
            label: string;
            /** @enum {string} */
            end: "front" | "rear";
            travel: {
                bump: components["schemas"]["Number"];
                droop: components["schemas"]["Number"];
                roll: components["schemas"]["Number"];
            };
            rows: components["schemas"]["Row"][];
            curves: components["schemas"]["Curve"][];
            seats: components["schemas"]["Seat"][];
            links: components["schemas"]["LinkReport"][];
            links_working: components["schemas"]["WorkingStep"][];
            locks: {
                heave: components["schemas"]["Number"];
                roll: components["schemas"]["Number"];
                message: string;
            }[];
        };
        ArticulationCase: {
            distance: components["schemas"]["Number"];
            height: components["schemas"]["Number"];
            index: components["schemas"]["Number"];
            first_lifted: string;
            loads: {
                axle: string;
                left: components["schemas"]["Number"];
                right: components["schemas"]["Number"];
            }[];
        };
        Finding: {
            id: string;
            verdict: components["schemas"]["Verdict"];
            work: string;
            subject: string;
            sentence: string;
            value: components["schemas"]["Number"] | null;
            limit: components["schemas"]["Number"] | null;
            basis: string;
            advice: string;
            assumption: string;
            path: components["schemas"]["Path"];
            working: components["schemas"]["WorkingStep"][];
        };
        /** @description One of the line of cases: middles of its front and its rear face. */
        DriveCase: {
            id: string;
            label: string;
            path: components["schemas"]["Path"];
            a: components["schemas"]["Vector"];
            b: components["schemas"]["Vector"];
            mass: components["schemas"]["Number"];
        };
        /** @description along: on the mount along its own axis, + pressed; f: of the mount on the case at p, newtons. */
        MountLoad: {
            label: string;
            path: components["schemas"]["Path"];
            along: components["schemas"]["Number"];
            p: components["schemas"]["Vector"];
            f: components["schemas"]["Vector"];
        };
        FlangeLoad: {
            label: string;
            path: components["schemas"]["Path"];
            bending: components["schemas"]["Number"];
            torsion: components["schemas"]["Number"];
            shear: components["schemas"]["Number"];
            limit: components["schemas"]["Number"] | null;
            verdict: components["schemas"]["Verdict"] | null;
        };
        /** @description N m of bending of the cases there; +: their underside is pulled. */
        BendingSpot: {
            p: components["schemas"]["Vector"];
            moment: number;
        };
        DriveLoad: {
            id: string;
            label: string;
            basis: string;
            mounts: components["schemas"]["MountLoad"][];
            flanges: components["schemas"]["FlangeLoad"][];
            diagram: components["schemas"]["BendingSpot"][];
        };
        DriveMode: {
            frequency: components["schemas"]["Number"];
            way: string;
            shares: {
                way: string;
                share: components["schemas"]["Number"];
            }[];
        };
        ShaftReport: {
            id: string;
            label: string;
            path: components["schemas"]["Path"];
            rows: components["schemas"]["Row"][];
            curves: components["schemas"]["Curve"][];
            under_load: components["schemas"]["ShaftUnderLoad"][];
            map: components["schemas"]["ShaftMap"] | null;
        };
        /** @description The shaft at ride, its case moved on its mounts by one of the loads. angles: of its joints; leaves: the one joint that equals them all. */
        ShaftUnderLoad: {
            id: string;
            label: string;
            angles: components["schemas"]["Number"][];
            leaves: components["schemas"]["Number"];
            /** @description Fastest that the shaft turns so. */
            speed: components["schemas"]["Number"];
            shake: components["schemas"]["Number"];
        };
        /** @description Where in bump and roll the shaft has room. rooms: a row for each roll, from right wheel up to left wheel up, a letter for each bump from droop to bump: f free, c close, p past, - not reached. */
        ShaftMap: {
            droop: components["schemas"]["Number"];
            bump: components["schemas"]["Number"];
            roll: components["schemas"]["Number"];
            /** @description Share of the way from droop to bump at which it rides. */
            ride: number;
            rooms: string[];
        };
        /** @description A place of a case that comes near something: apart as drawn, least over all loads and the travel, and the most that the place moves; loads in words, empty as drawn. */
        GapReport: {
            id: string;
            label: string;
            path: components["schemas"]["Path"];
            drawn: components["schemas"]["Number"];
            least: components["schemas"]["Number"];
            least_load: string;
            wanted: components["schemas"]["Number"];
            moves: components["schemas"]["Number"];
            moves_load: string;
            verdict: components["schemas"]["Verdict"] | null;
        };
        GearReport: {
            gear: string;
            range: string;
            overall: components["schemas"]["Number"];
            idle_speed: components["schemas"]["Number"];
            top_speed: components["schemas"]["Number"];
            /** @description Speed of the engine at road_speed. */
            road_engine: components["schemas"]["Number"];
            climb: components["schemas"]["Number"];
            climb_by: string;
        };
        LiftReport: {
            id: string;
            label: string;
            path: components["schemas"]["Path"];
            mass: components["schemas"]["Number"];
            balance: components["schemas"]["Number"];
            hook_off: components["schemas"]["Number"];
            leg: components["schemas"]["Number"];
        };
        /** @description hold: what must be measured before going on; may be empty. */
        MockUpStep: {
            label: string;
            detail: string;
            hold: string;
        };
        DrivetrainReport: {
            rows: components["schemas"]["Row"][];
            cases: components["schemas"]["DriveCase"][];
            loads: components["schemas"]["DriveLoad"][];
            modes: components["schemas"]["DriveMode"][];
            shafts: components["schemas"]["ShaftReport"][];
            gears: components["schemas"]["GearReport"][];
            /** @description At which road_engine of the gears is told. */
            road_speed: components["schemas"]["Number"];
            lifts: components["schemas"]["LiftReport"][];
            gaps: components["schemas"]["GapReport"][];
            steps: components["schemas"]["MockUpStep"][];
        };
        Report: {
            name: string;
            notice: string;
            verdicts: components["schemas"]["Verdicts"];
            summary: {
                [key: string]: string[];
            };
            diagnostics: components["schemas"]["Diagnostic"][];
            missing: {
                path: components["schemas"]["Path"];
                what: string;
                needed: string;
            }[];
            states: components["schemas"]["StateReport"][];
            axles: components["schemas"]["AxleReport"][];
            articulation: components["schemas"]["Articulation"];
            frame: components["schemas"]["FrameReport"] | null;
            drivetrain: components["schemas"]["DrivetrainReport"] | null;
            findings: components["schemas"]["Finding"][];
        };
        Articulation: {
            ramp: components["schemas"]["ArticulationCase"] | null;
            cross: components["schemas"]["ArticulationCase"] | null;
        };
        /** @enum {unknown} */
        Work: "weigh" | "axles" | "frame" | "drivetrain";
        Trial: {
            work: components["schemas"]["Work"];
            summary?: string[];
            states?: components["schemas"]["StateReport"][];
            axles?: components["schemas"]["AxleReport"][];
            articulation?: components["schemas"]["Articulation"];
            frame?: components["schemas"]["FrameReport"] | null;
            drivetrain?: components["schemas"]["DrivetrainReport"] | null;
            findings: components["schemas"]["Finding"][];
        };
        EndPoint: {
            body: string;
            p: components["schemas"]["Vector"];
            path: components["schemas"]["Path"];
        };
        Part: {
            /** @enum {unknown} */
            kind: "rail" | "plate" | "crossmember";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            body: string;
            points: {
                path: components["schemas"]["Path"];
                p: components["schemas"]["Vector"];
            }[];
            profile: {
                p: components["schemas"]["Vector"];
                depth: number;
                width: number;
                round: boolean;
            }[];
            /** @enum {unknown} */
            fate: "stays" | "comes_out" | "goes_in" | "temporary";
        } | {
            /** @constant */
            kind: "bar";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            a: components["schemas"]["EndPoint"];
            b: components["schemas"]["EndPoint"];
            radius: number;
        } | {
            /** @constant */
            kind: "arm";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            apex: components["schemas"]["EndPoint"];
            feet: components["schemas"]["EndPoint"][];
            radius: number;
        } | {
            /** @enum {string} */
            kind: "coil" | "shock" | "stop";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            a: components["schemas"]["EndPoint"];
            b: components["schemas"]["EndPoint"];
            radius: number;
        } | {
            /** @constant */
            kind: "leaf";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            a: components["schemas"]["EndPoint"];
            seat: components["schemas"]["EndPoint"];
            b: components["schemas"]["EndPoint"];
        } | {
            /** @constant */
            kind: "shaft";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            a: components["schemas"]["EndPoint"];
            b: components["schemas"]["EndPoint"];
            radius: number;
        } | {
            /** @constant */
            kind: "case";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            a: components["schemas"]["EndPoint"];
            b: components["schemas"]["EndPoint"];
            radius: number;
            corners: components["schemas"]["Vector"][] | null;
            moves: ("station" | "offset" | "height")[];
        } | {
            /** @constant */
            kind: "gap";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            a: components["schemas"]["EndPoint"];
            b: components["schemas"]["EndPoint"];
        } | {
            /** @constant */
            kind: "hole";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            body: string;
            centre: components["schemas"]["Vector"];
            axis: components["schemas"]["Vector"];
            radius: number;
            thickness: number;
            /** @enum {unknown} */
            fate: "stays" | "comes_out" | "goes_in" | "temporary";
        } | {
            /** @constant */
            kind: "mount";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            at: components["schemas"]["EndPoint"];
            axis: components["schemas"]["Vector"];
        } | {
            /** @constant */
            kind: "hitch";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            at: components["schemas"]["EndPoint"];
            radius: number;
        } | {
            /** @constant */
            kind: "axle";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            body: string;
            a: components["schemas"]["Vector"];
            b: components["schemas"]["Vector"];
            radius: number;
        } | {
            /** @constant */
            kind: "tyre";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            body: string;
            centre: components["schemas"]["Vector"];
            axis: components["schemas"]["Vector"];
            radius: number;
            width: number;
            steered: boolean;
        } | {
            /** @constant */
            kind: "box";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            body: string;
            centre: components["schemas"]["Vector"];
            size: components["schemas"]["Vector"];
            mass: components["schemas"]["Number"];
        } | {
            /** @constant */
            kind: "cylinder";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            body: string;
            centre: components["schemas"]["Vector"];
            axis: components["schemas"]["Vector"];
            length: number;
            radius: number;
            mass: components["schemas"]["Number"];
        } | {
            /** @constant */
            kind: "ball";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            body: string;
            centre: components["schemas"]["Vector"];
            mass: components["schemas"]["Number"];
        } | {
            /** @constant */
            kind: "cg";
            name?: string;
            path: components["schemas"]["Path"];
            label: string;
            state: string;
            body: string;
            centre: components["schemas"]["Vector"];
        };
        Scene: {
            extent: {
                front_x: number;
                rear_x: number;
                top_z: number;
            };
            floor_z: number;
            front_axle_x: number;
            bodies: string[];
            parts: components["schemas"]["Part"][];
        };
        /** @description A body's point as drawn q goes to R q + p. */
        BodyPose: {
            R: [
                components["schemas"]["Vector"],
                components["schemas"]["Vector"],
                components["schemas"]["Vector"]
            ];
            p: components["schemas"]["Vector"];
        };
        PoseQuestion: {
            state?: string | null;
            settled?: boolean | null;
            heave?: {
                [key: string]: number;
            } | null;
            roll?: {
                [key: string]: number;
            } | null;
        };
        Pose: {
            bodies: {
                [key: string]: components["schemas"]["BodyPose"];
            };
            numbers: {
                [key: string]: {
                    id: string;
                    label: string;
                    value: components["schemas"]["Number"];
                }[];
            };
            locked: string | null;
        };
    };
    responses: {
        /** @description The body, the query or a header is not what this document says. */
        BadRequest: {
            headers: {
                [name: string]: unknown;
            };
            content: {
                "application/json": components["schemas"]["Error"];
            };
        };
        /** @description This screen is not paired yet. */
        NotPaired: {
            headers: {
                [name: string]: unknown;
            };
            content: {
                "application/json": components["schemas"]["Error"];
            };
        };
        /** @description Another host or site, or a wrong code. */
        Forbidden: {
            headers: {
                [name: string]: unknown;
            };
            content: {
                "application/json": components["schemas"]["Error"];
            };
        };
        /** @description There is no build of that name here. */
        NotFound: {
            headers: {
                [name: string]: unknown;
            };
            content: {
                "application/json": components["schemas"]["Error"];
            };
        };
        /** @description It can't be done as things stand; the words say why. */
        Refused: {
            headers: {
                [name: string]: unknown;
            };
            content: {
                "application/json": components["schemas"]["Error"];
            };
        };
        /** @description It does not read; nothing has changed. */
        Unreadable: {
            headers: {
                [name: string]: unknown;
            };
            content: {
                "application/json": components["schemas"]["Error"];
            };
        };
        /** @description Others changed the same values, or the state is not known; nothing has changed. */
        Conflict: {
            headers: {
                /** @description The tag of the newest state, in quotes. */
                ETag: string;
                [name: string]: unknown;
            };
            content: {
                "application/json": components["schemas"]["ConflictError"];
            };
        };
        /** @description If-Match is missing. */
        NoMatch: {
            headers: {
                [name: string]: unknown;
            };
            content: {
                "application/json": components["schemas"]["Error"];
            };
        };
        /** @description The body's media type is another. */
        WrongType: {
            headers: {
                [name: string]: unknown;
            };
            content: {
                "application/json": components["schemas"]["Error"];
            };
        };
        /** @description Too many at once: wait. */
        TooMany: {
            headers: {
                [name: string]: unknown;
            };
            content: {
                "application/json": components["schemas"]["Error"];
            };
        };
        /** @description The disk refused; nothing has changed. */
        DiskRefused: {
            headers: {
                [name: string]: unknown;
            };
            content: {
                "application/json": components["schemas"]["Error"];
            };
        };
    };
    parameters: {
        /** @description The build's id. */
        id: components["schemas"]["Id"];
        /** @description Answer for this variant; left out: the build itself. */
        variant: string;
        /** @description The entity tag, in quotes, of the state that the change was made on. */
        if_match: string;
        /** @description The page's own name for itself; it comes back in the events. */
        screen: string;
        /** @description Who makes the change. */
        initials: string;
    };
    requestBodies: never;
    headers: never;
    pathItems: never;
}
export type $defs = Record<string, never>;
export interface operations {
    getShop: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The list */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Shop"];
                };
            };
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
        };
    };
    getQuestions: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The questions */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": {
                        questions: components["schemas"]["Question"][];
                    };
                };
            };
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
        };
    };
    addBuild: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["NewBuild"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": {
                        id: components["schemas"]["Id"];
                    };
                };
            };
            400: components["responses"]["BadRequest"];
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            415: components["responses"]["WrongType"];
            422: components["responses"]["Unreadable"];
            507: components["responses"]["DiskRefused"];
        };
    };
    archiveBuild: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": {
                    id: components["schemas"]["Id"];
                    archived: boolean;
                };
            };
        };
        responses: {
            /** @description The list */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Shop"];
                };
            };
            400: components["responses"]["BadRequest"];
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            415: components["responses"]["WrongType"];
            507: components["responses"]["DiskRefused"];
        };
    };
    getBuild: {
        parameters: {
            query?: {
                /** @description Answer for this variant; left out: the build itself. */
                variant?: components["parameters"]["variant"];
            };
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The build */
            200: {
                headers: {
                    /** @description The tag of the newest state, in quotes. */
                    ETag: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["BuildAnswer"];
                };
            };
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            422: components["responses"]["Unreadable"];
        };
    };
    patchBuild: {
        parameters: {
            query?: {
                /** @description Answer for this variant; left out: the build itself. */
                variant?: components["parameters"]["variant"];
            };
            header: {
                /** @description The entity tag, in quotes, of the state that the change was made on. */
                "If-Match": components["parameters"]["if_match"];
                /** @description The page's own name for itself; it comes back in the events. */
                "Rig-Screen"?: components["parameters"]["screen"];
                /** @description Who makes the change. */
                "Rig-Initials"?: components["parameters"]["initials"];
            };
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json-patch+json": components["schemas"]["Patch"];
            };
        };
        responses: {
            /** @description Changed, and on disk */
            200: {
                headers: {
                    /** @description The tag of the newest state, in quotes. */
                    ETag: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ChangeAnswer"];
                };
            };
            400: components["responses"]["BadRequest"];
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            412: components["responses"]["Conflict"];
            415: components["responses"]["WrongType"];
            422: components["responses"]["Unreadable"];
            428: components["responses"]["NoMatch"];
            507: components["responses"]["DiskRefused"];
        };
    };
    getFile: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The file */
            200: {
                headers: {
                    /** @description The tag of the newest state, in quotes. */
                    ETag: string;
                    "Content-Disposition"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Document"];
                };
            };
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            422: components["responses"]["Unreadable"];
        };
    };
    getReport: {
        parameters: {
            query?: {
                /** @description Answer for this variant; left out: the build itself. */
                variant?: components["parameters"]["variant"];
            };
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The report */
            200: {
                headers: {
                    /** @description The tag of the newest state, in quotes. */
                    ETag: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/json": {
                        etag: components["schemas"]["Tag"];
                        report: components["schemas"]["Report"];
                    };
                };
            };
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            422: components["responses"]["Unreadable"];
        };
    };
    getScene: {
        parameters: {
            query?: {
                /** @description Answer for this variant; left out: the build itself. */
                variant?: components["parameters"]["variant"];
            };
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The scene */
            200: {
                headers: {
                    /** @description The tag of the newest state, in quotes. */
                    ETag: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/json": {
                        etag: components["schemas"]["Tag"];
                        scene: components["schemas"]["Scene"];
                    };
                };
            };
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            422: components["responses"]["Unreadable"];
        };
    };
    getPicture: {
        parameters: {
            query?: {
                /** @description Answer for this variant; left out: the build itself. */
                variant?: components["parameters"]["variant"];
            };
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The picture */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "image/svg+xml": string;
                };
            };
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            422: components["responses"]["Unreadable"];
        };
    };
    askPose: {
        parameters: {
            query?: {
                /** @description Answer for this variant; left out: the build itself. */
                variant?: components["parameters"]["variant"];
            };
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["PoseQuestion"];
            };
        };
        responses: {
            /** @description The pose */
            200: {
                headers: {
                    /** @description The tag of the newest state, in quotes. */
                    ETag: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/json": {
                        etag: components["schemas"]["Tag"];
                        pose: components["schemas"]["Pose"];
                    };
                };
            };
            400: components["responses"]["BadRequest"];
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            415: components["responses"]["WrongType"];
            422: components["responses"]["Unreadable"];
        };
    };
    tryPatch: {
        parameters: {
            query: {
                /** @description Answer for this variant; left out: the build itself. */
                variant?: components["parameters"]["variant"];
                work: components["schemas"]["Work"];
                /** @description Of the axles this one alone */
                axle?: string;
            };
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["Patch"] | components["schemas"]["Change"];
            };
        };
        responses: {
            /** @description What the work tells, and the scene */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": {
                        trial: components["schemas"]["Trial"];
                        scene: components["schemas"]["Scene"];
                    };
                };
            };
            400: components["responses"]["BadRequest"];
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            415: components["responses"]["WrongType"];
            422: components["responses"]["Unreadable"];
        };
    };
    undo: {
        parameters: {
            query?: {
                /** @description Answer for this variant; left out: the build itself. */
                variant?: components["parameters"]["variant"];
            };
            header: {
                /** @description The entity tag, in quotes, of the state that the change was made on. */
                "If-Match": components["parameters"]["if_match"];
                /** @description The page's own name for itself; it comes back in the events. */
                "Rig-Screen"?: components["parameters"]["screen"];
                /** @description Who makes the change. */
                "Rig-Initials"?: components["parameters"]["initials"];
            };
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": Record<string, never>;
            };
        };
        responses: {
            /** @description Gone back */
            200: {
                headers: {
                    /** @description The tag of the newest state, in quotes. */
                    ETag: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ChangeAnswer"];
                };
            };
            400: components["responses"]["BadRequest"];
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            412: components["responses"]["Conflict"];
            415: components["responses"]["WrongType"];
            422: components["responses"]["Unreadable"];
            428: components["responses"]["NoMatch"];
            507: components["responses"]["DiskRefused"];
        };
    };
    redo: {
        parameters: {
            query?: {
                /** @description Answer for this variant; left out: the build itself. */
                variant?: components["parameters"]["variant"];
            };
            header: {
                /** @description The entity tag, in quotes, of the state that the change was made on. */
                "If-Match": components["parameters"]["if_match"];
                /** @description The page's own name for itself; it comes back in the events. */
                "Rig-Screen"?: components["parameters"]["screen"];
                /** @description Who makes the change. */
                "Rig-Initials"?: components["parameters"]["initials"];
            };
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": Record<string, never>;
            };
        };
        responses: {
            /** @description Gone forth */
            200: {
                headers: {
                    /** @description The tag of the newest state, in quotes. */
                    ETag: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ChangeAnswer"];
                };
            };
            400: components["responses"]["BadRequest"];
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            412: components["responses"]["Conflict"];
            415: components["responses"]["WrongType"];
            422: components["responses"]["Unreadable"];
            428: components["responses"]["NoMatch"];
            507: components["responses"]["DiskRefused"];
        };
    };
    restore: {
        parameters: {
            query?: {
                /** @description Answer for this variant; left out: the build itself. */
                variant?: components["parameters"]["variant"];
            };
            header: {
                /** @description The entity tag, in quotes, of the state that the change was made on. */
                "If-Match": components["parameters"]["if_match"];
                /** @description The page's own name for itself; it comes back in the events. */
                "Rig-Screen"?: components["parameters"]["screen"];
                /** @description Who makes the change. */
                "Rig-Initials"?: components["parameters"]["initials"];
            };
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": {
                    entry: number;
                };
            };
        };
        responses: {
            /** @description Gone back */
            200: {
                headers: {
                    /** @description The tag of the newest state, in quotes. */
                    ETag: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ChangeAnswer"];
                };
            };
            400: components["responses"]["BadRequest"];
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            412: components["responses"]["Conflict"];
            415: components["responses"]["WrongType"];
            422: components["responses"]["Unreadable"];
            428: components["responses"]["NoMatch"];
            507: components["responses"]["DiskRefused"];
        };
    };
    changeThing: {
        parameters: {
            query?: {
                /** @description Answer for this variant; left out: the build itself. */
                variant?: components["parameters"]["variant"];
            };
            header: {
                /** @description The entity tag, in quotes, of the state that the change was made on. */
                "If-Match": components["parameters"]["if_match"];
                /** @description The page's own name for itself; it comes back in the events. */
                "Rig-Screen"?: components["parameters"]["screen"];
                /** @description Who makes the change. */
                "Rig-Initials"?: components["parameters"]["initials"];
            };
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["Change"];
            };
        };
        responses: {
            /** @description Changed, and on disk */
            200: {
                headers: {
                    /** @description The tag of the newest state, in quotes. */
                    ETag: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ChangeAnswer"];
                };
            };
            400: components["responses"]["BadRequest"];
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            /** @description Something else names what is to be taken out, or it can't be done as things stand. */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["DependantsError"] | components["schemas"]["Error"];
                };
            };
            412: components["responses"]["Conflict"];
            415: components["responses"]["WrongType"];
            422: components["responses"]["Unreadable"];
            428: components["responses"]["NoMatch"];
            507: components["responses"]["DiskRefused"];
        };
    };
    getHistory: {
        parameters: {
            query?: {
                /** @description Only entries before this one. */
                before?: number;
                /** @description How many at most; 50 if left out. */
                limit?: number;
            };
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description A page of the history */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["History"];
                };
            };
            400: components["responses"]["BadRequest"];
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            422: components["responses"]["Unreadable"];
        };
    };
    nameVersion: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": {
                    name: string;
                    entry: number;
                };
            };
        };
        responses: {
            /** @description The history */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["History"];
                };
            };
            400: components["responses"]["BadRequest"];
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            415: components["responses"]["WrongType"];
            422: components["responses"]["Unreadable"];
            507: components["responses"]["DiskRefused"];
        };
    };
    getDependants: {
        parameters: {
            query: {
                /** @description Answer for this variant; left out: the build itself. */
                variant?: components["parameters"]["variant"];
                /** @description The thing. */
                path: components["schemas"]["Path"];
            };
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The dependants */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": {
                        dependants: components["schemas"]["Dependant"][];
                    };
                };
            };
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            422: components["responses"]["Unreadable"];
        };
    };
    getNext: {
        parameters: {
            query?: {
                /** @description Answer for this variant; left out: the build itself. */
                variant?: components["parameters"]["variant"];
            };
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The readings */
            200: {
                headers: {
                    /** @description The tag of the newest state, in quotes. */
                    ETag: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/json": {
                        readings: components["schemas"]["Reading"][];
                    };
                };
            };
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            422: components["responses"]["Unreadable"];
        };
    };
    getFrameDrawing: {
        parameters: {
            query: {
                /** @description Answer for this variant; left out: the build itself. */
                variant?: components["parameters"]["variant"];
                /** @description One of the report's frame cases. */
                case: string;
            };
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The drawing */
            200: {
                headers: {
                    /** @description The tag of the newest state, in quotes. */
                    ETag: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/json": {
                        etag: string;
                        drawing: components["schemas"]["FrameDrawing"];
                    };
                };
            };
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            422: components["responses"]["Unreadable"];
        };
    };
    getFrameSections: {
        parameters: {
            query?: {
                /** @description Answer for this variant; left out: the build itself. */
                variant?: components["parameters"]["variant"];
            };
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The sections */
            200: {
                headers: {
                    /** @description The tag of the newest state, in quotes. */
                    ETag: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/json": {
                        etag: string;
                        sections: components["schemas"]["FrameSection"][];
                    };
                };
            };
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            422: components["responses"]["Unreadable"];
        };
    };
    compare: {
        parameters: {
            query?: {
                /** @description A variant; empty: the build itself. */
                a?: string;
                /** @description Another. */
                b?: string;
            };
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The comparison */
            200: {
                headers: {
                    /** @description The tag of the newest state, in quotes. */
                    ETag: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Comparison"];
                };
            };
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            422: components["responses"]["Unreadable"];
        };
    };
    listen: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The build's id. */
                id: components["parameters"]["id"];
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description `head` events whose data is a HeadEvent, one at once and one whenever the head moves or the file on disk becomes unreadable or readable again; a comment every 10 s. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/event-stream": string;
                };
            };
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            404: components["responses"]["NotFound"];
            409: components["responses"]["Refused"];
            422: components["responses"]["Unreadable"];
            429: components["responses"]["TooMany"];
        };
    };
    understand: {
        parameters: {
            query: {
                /** @description Such as length or mass. */
                dimension: string;
                /** @description As typed. */
                text: string;
                /** @description The build's units; false if left out. */
                metric?: boolean;
                /** @description Finest fraction of an inch; 16 if left out. */
                fraction?: number;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Understood */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Understood"];
                };
            };
            400: components["responses"]["BadRequest"];
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
            422: components["responses"]["Unreadable"];
        };
    };
    getSchema: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The schema */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": Record<string, never>;
                };
            };
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
        };
    };
    getOpenApi: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The document */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": Record<string, never>;
                };
            };
            401: components["responses"]["NotPaired"];
            403: components["responses"]["Forbidden"];
        };
    };
    pair: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": {
                    code: string;
                };
            };
        };
        responses: {
            /** @description Paired: the cookie is set */
            204: {
                headers: {
                    /** @description Only with --lan. */
                    "Set-Cookie"?: string;
                    [name: string]: unknown;
                };
                content?: never;
            };
            400: components["responses"]["BadRequest"];
            403: components["responses"]["Forbidden"];
            415: components["responses"]["WrongType"];
            429: components["responses"]["TooMany"];
        };
    };
    getDoor: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The door */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": {
                        paired: boolean;
                        needed: boolean;
                        /** @description How long a pairing code is good for */
                        code_minutes: number;
                    };
                };
            };
            403: components["responses"]["Forbidden"];
        };
    };
}
