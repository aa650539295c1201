// Made by `npm run schema` from the shapes of apps/api; not edited by hand.

export interface paths {
    "/api/v1/health": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["health_health"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/sessions": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["session_list"];
        put?: never;
        post: operations["session_signIn"];
        delete: operations["session_signOutEverywhere"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/sessions/current": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        delete: operations["session_signOut"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/sessions/others": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        delete: operations["session_closeOthers"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/sessions/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        delete: operations["session_close"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/me": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["account_me"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch: operations["account_update"];
        trace?: never;
    };
    "/api/v1/me/password": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put: operations["account_changePassword"];
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/password-resets": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["account_requestReset"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/password-resets/complete": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["account_reset"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/sessions/second-factor": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["secondfactor_signIn"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/sessions/current/second-factor": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["secondfactor_stepUp"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/second-factor": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["secondfactor_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/second-factor/totp": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["secondfactor_setUp"];
        delete: operations["secondfactor_remove"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/second-factor/totp/confirm": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["secondfactor_confirm"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/second-factor/recovery-codes": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["secondfactor_renewCodes"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/sessions/passkey/options": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["passkeys_signInOptions"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/sessions/passkey": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["passkeys_signIn"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/passkeys": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["passkeys_list"];
        put?: never;
        post: operations["passkeys_add"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/passkeys/options": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["passkeys_options"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/passkeys/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        delete: operations["passkeys_remove"];
        options?: never;
        head?: never;
        patch: operations["passkeys_rename"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/access-settings": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["accesssettings_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch: operations["accesssettings_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/live-settings": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["livesettings_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch: operations["livesettings_update"];
        trace?: never;
    };
    "/api/v1/yards": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["yard_list"];
        put?: never;
        post: operations["yard_create"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["yard_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch: operations["yard_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/export": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["yard_export"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/warnings": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["yard_warnings"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/outdoor": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["yard_outdoor"];
        put: operations["yard_importOutdoor"];
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/people": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["people_list"];
        put?: never;
        post: operations["people_create"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/people/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["people_get"];
        put?: never;
        post?: never;
        delete: operations["people_remove"];
        options?: never;
        head?: never;
        patch: operations["people_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/people/{id}/account": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        delete: operations["people_endAccess"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/invitations": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["invitations_list"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/people/{id}/invitations": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["invitations_invite"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/invitations/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        delete: operations["invitations_revoke"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/invitations/preview": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["joining_preview"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/invitations/accept": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["joining_accept"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/program-keys": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["programkeys_list"];
        put?: never;
        post: operations["programkeys_create"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/program-keys/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        delete: operations["programkeys_revoke"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/audit": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["audit_list"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/skills": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["skills_list"];
        put?: never;
        post: operations["skills_create"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/skills/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["skills_get"];
        put?: never;
        post?: never;
        delete: operations["skills_remove"];
        options?: never;
        head?: never;
        patch: operations["skills_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/spaces": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["spaces_list"];
        put?: never;
        post: operations["spaces_create"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/spaces/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["spaces_get"];
        put?: never;
        post?: never;
        delete: operations["spaces_remove"];
        options?: never;
        head?: never;
        patch: operations["spaces_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/tools": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["tools_list"];
        put?: never;
        post: operations["tools_create"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/tools/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["tools_get"];
        put?: never;
        post?: never;
        delete: operations["tools_remove"];
        options?: never;
        head?: never;
        patch: operations["tools_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/stocks": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["stocks_list"];
        put?: never;
        post: operations["stocks_create"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/stocks/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["stocks_get"];
        put?: never;
        post?: never;
        delete: operations["stocks_remove"];
        options?: never;
        head?: never;
        patch: operations["stocks_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/barriers": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["barriers_list"];
        put?: never;
        post: operations["barriers_create"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/barriers/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["barriers_get"];
        put?: never;
        post?: never;
        delete: operations["barriers_remove"];
        options?: never;
        head?: never;
        patch: operations["barriers_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/slot-lists": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["slotlists_list"];
        put?: never;
        post: operations["slotlists_create"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/slot-lists/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["slotlists_get"];
        put?: never;
        post?: never;
        delete: operations["slotlists_remove"];
        options?: never;
        head?: never;
        patch: operations["slotlists_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/deliveries": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["deliveries_list"];
        put?: never;
        post: operations["deliveries_create"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/deliveries/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["deliveries_get"];
        put?: never;
        post?: never;
        delete: operations["deliveries_remove"];
        options?: never;
        head?: never;
        patch: operations["deliveries_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/catalogue/classes": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["catalogue_classes"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/catalogue/classes/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["catalogue_class"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/catalogue/fabrics": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["catalogue_fabrics"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/catalogue/bond-rules": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["bonds_rules"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/bond-checks": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["bonds_check"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/parts/{id}/surface": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["bonds_surface"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/materials": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["materials_list"];
        put?: never;
        post: operations["materials_create"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/materials/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["materials_get"];
        put?: never;
        post?: never;
        delete: operations["materials_remove"];
        options?: never;
        head?: never;
        patch: operations["materials_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/materials/{id}/sheet": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["materials_sheet"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/materials/{id}/versions": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["materials_versions"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/fabrics": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["fabrics_list"];
        put?: never;
        post: operations["fabrics_create"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/fabrics/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["fabrics_get"];
        put?: never;
        post?: never;
        delete: operations["fabrics_remove"];
        options?: never;
        head?: never;
        patch: operations["fabrics_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/readings": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["readings_list"];
        put?: never;
        post: operations["readings_add"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/readings/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["readings_get"];
        put?: never;
        post?: never;
        delete: operations["readings_remove"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/observations": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["observations_list"];
        put?: never;
        post: operations["observations_add"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/observations/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["observations_get"];
        put?: never;
        post?: never;
        delete: operations["observations_remove"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/tasks/{taskId}/tack-tests": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["observations_tackTest"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/materials/{id}/calibration": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["observations_calibration"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/materials/{id}/film": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["filmtimes_film"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/materials/{id}/latest-start": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["filmtimes_latestStart"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/spaces/{id}/climate": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["climate_hours"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/procedures": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["procedures_list"];
        put?: never;
        post: operations["procedures_create"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/procedures/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["procedures_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/procedures/{id}/versions/{version}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["procedures_getVersion"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/procedures/{id}/preview": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["procedures_preview"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/procedures/{id}/versions": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["procedures_createVersion"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/boats": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["boats_list"];
        put?: never;
        post: operations["boats_create"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/boats/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["boats_get"];
        put?: never;
        post?: never;
        delete: operations["boats_remove"];
        options?: never;
        head?: never;
        patch: operations["boats_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/boats/{id}/refits": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["boats_createRefit"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/refits/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["refits_get"];
        put?: never;
        post?: never;
        delete: operations["refits_remove"];
        options?: never;
        head?: never;
        patch: operations["refits_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/refits/{id}/parts": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["refits_createPart"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/parts/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["parts_get"];
        put?: never;
        post?: never;
        delete: operations["parts_remove"];
        options?: never;
        head?: never;
        patch: operations["parts_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/parts/{id}/jobs": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["parts_addJob"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/jobs/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["jobs_get"];
        put?: never;
        post?: never;
        delete: operations["jobs_remove"];
        options?: never;
        head?: never;
        patch: operations["jobs_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/events": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["events_follow"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plan-runs": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["planruns_list"];
        put?: never;
        post: operations["planruns_start"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plan-runs/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["planruns_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plan-runs/{id}/stop": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["planruns_stop"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plan-runs/{id}/events": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["planruns_follow"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plans": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["plans_list"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plans/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["plans_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plans/{id}/week": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["plans_week"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plans/{id}/chains": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["plans_chains"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plans/{id}/publish": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["plans_publish"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plans/{id}/tasks/{taskId}/why-not-earlier": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["explanations_whyNotEarlier"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plans/{id}/what-shortens": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["explanations_whatShortens"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plans/{id}/check": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["explanations_check"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plans/{id}/mix-sheets": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["mixsheets_list"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plans/{id}/tasks/{taskId}/mix-sheet": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["mixsheets_ofTask"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plans/{id}/shopping": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["mixsheets_shopping"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/published-plan": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["publishedplan_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/published-plan/week": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["publishedplan_week"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/published-plan/chains": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["publishedplan_chains"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/published-plan/mix-sheets": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["publishedplan_mixSheets"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/published-plan/shopping": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["publishedplan_shopping"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/publishings": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["publishings_list"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plans/{id}/picture": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["picture_picture"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/published-plan/picture": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["picture_published"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plans/{id}/tasks/{taskId}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["placements_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plans/{id}/tasks/{taskId}/placements": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["placements_tryPlacement"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/candidates": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["candidates_list"];
        put?: never;
        post: operations["candidates_ask"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/candidates/{planId}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["candidates_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/candidates/{planId}/discard": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["candidates_discard"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/plans/{id}/difference": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["candidates_difference"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/tasks": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["tasks_list"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/tasks/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["tasks_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch: operations["tasks_fix"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/tasks/{taskId}/batch-failed": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["tasks_failBatch"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/tasks/{taskId}/undo": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["tasks_undo"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/ready": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["ready_ready"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/claims": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["claims_list"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/claims/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["claims_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/tasks/{taskId}/claims": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["claims_claim"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/claims/{id}/join": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["claims_join"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/claims/{id}/leave": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["claims_leave"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/claims/{id}/release": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["claims_release"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/claims/{id}/start": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["claims_start"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/claims/{id}/pause": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["claims_pause"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/claims/{id}/resume": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["claims_resume"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/claims/{id}/progress": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["claims_progress"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/claims/{id}/finish": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["claims_finish"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/claims/{id}/abandon": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["claims_abandon"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/snag-kinds": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["snags_kinds"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/snags": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["snags_list"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/snags/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["snags_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch: operations["snags_update"];
        trace?: never;
    };
    "/api/v1/yards/{yardId}/parts/{id}/snags": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["snags_raise"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/snags/{id}/propose": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["snags_propose"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/snags/{id}/accept": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["snags_accept"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/snags/{id}/dismiss": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["snags_dismiss"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/snags/{id}/settle": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["snags_settle"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/snags/{id}/reopen": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["snags_reopen"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/snags/{id}/photos": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["photos_add"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/photos/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["photos_get"];
        put?: never;
        post?: never;
        delete: operations["photos_remove"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/tasks/{id}/history": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["taskhistory_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/alarms": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["alarms_list"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/alarms/stream": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["alarms_follow"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/alarms/{id}/shown": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["alarms_shown"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/alarms/{id}/acknowledge": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["alarms_acknowledge"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/push-key": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["push_key"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/push-subscriptions": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["push_list"];
        put?: never;
        post: operations["push_subscribe"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/push-subscriptions/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        delete: operations["push_remove"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/changes": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["changes_list"];
        put?: never;
        post: operations["changes_ask"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/changes/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["changes_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/changes/{id}/reprice": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["changes_reprice"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/changes/{id}/accept": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["changes_accept"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/changes/{id}/decline": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["changes_decline"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/changes/{id}/withdraw": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["changes_withdraw"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/reports": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["reports_list"];
        put?: never;
        post: operations["reports_send"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/reports/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["reports_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/reports/{id}/settle": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["reports_settle"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/my-boats": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["myboats_list"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/my-boats/stream": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["myboats_follow"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/my-boats/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["myboats_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/my-boats/{id}/history": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["myboats_history"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/calendars": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["calendars_list"];
        put?: never;
        post: operations["calendars_create"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/calendars/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        delete: operations["calendars_revoke"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/calendars/{secret}.ics": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["calendarfeed_read"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/productivity": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get: operations["productivity_get"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/v1/yards/{yardId}/productivity/apply": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post: operations["productivity_apply"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
}
export interface components {
    schemas: {
        Health: {
            /** @constant */
            status: "ok";
            /** @constant */
            database: "ok";
        };
        SignInInput: {
            /** Format: email */
            email: string;
            password: string;
        };
        SignedIn: {
            /** @description Send it as `Authorization: Bearer …`; it is shown only here. */
            token?: string;
            /**
             * Format: date-time
             * @description The latest end; idle for hours it ends before.
             */
            expiresAt?: string;
            /** @description What a page that sends the cookie instead puts into the header x-csrf-token. */
            csrf?: string;
            /** @description The password was right: send this with a code of the second factor. */
            pending?: string;
        };
        MySessionPage: {
            items: components["schemas"]["MySession"][];
            nextCursor: string | null;
        };
        ClosedSessions: {
            /** @description How many there were. */
            closed: number;
        };
        Me: {
            /** @description Of the account, the same in every yard. */
            id: string;
            email: string;
            name: string;
            /** @enum {string} */
            units: "metric" | "imperial";
            /** @enum {string} */
            temperature: "celsius" | "fahrenheit";
            /** @description Goes with the cookie, in the header x-csrf-token. */
            csrf: string;
            /** @description When a second factor was shown in this session. */
            secondFactorAt: string | null;
            memberships: components["schemas"]["Membership"][];
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        MePatch: {
            name?: string;
            /** @enum {string} */
            units?: "metric" | "imperial";
            /** @enum {string} */
            temperature?: "celsius" | "fahrenheit";
        };
        PasswordChangeInput: {
            oldPassword: string;
            /** @description 15 to 128 characters of any kind; none that is tried first. */
            password: string;
        };
        Session: {
            /** @description Send it as `Authorization: Bearer …`; it is shown only here. */
            token: string;
            /**
             * Format: date-time
             * @description The latest end; idle for hours it ends before.
             */
            expiresAt: string;
            /** @description What a page that sends the cookie instead puts into the header x-csrf-token. */
            csrf: string;
        };
        ResetRequestInput: {
            /** Format: email */
            email: string;
        };
        PasswordResetInput: {
            /** @description What stands after the # of the link. */
            token: string;
            /** @description 15 to 128 characters of any kind; none that is tried first. */
            password: string;
        };
        CodeSignInInput: {
            /** @description What signing in with the password answered. */
            pending: string;
            /** @description Six digits of the authenticator, or a recovery code; spaces and dashes do not matter. */
            code: string;
        };
        SecondFactorCodeInput: {
            /** @description Six digits of the authenticator, or a recovery code; spaces and dashes do not matter. */
            code: string;
        };
        SecondFactor: {
            /** @description Null: one-time codes are off. */
            totpSince: string | null;
            recoveryCodesLeft: number;
            passkeys: number;
            /** @description When a second factor was shown in this session. */
            shownAt: string | null;
        };
        TotpSetUpInput: {
            /** @description Of the account, again: who finds an open browser has not got it. */
            password: string;
        };
        TotpSetUp: {
            /** @description Base 32, for an authenticator without a camera; shown only here. */
            secret: string;
            /** @description otpauth://…, for its picture; shown only here. */
            uri: string;
            /** Format: date-time */
            confirmBefore: string;
        };
        TotpConfirmInput: {
            /** @description The first six digits of the new authenticator. */
            code: string;
        };
        TotpConfirmed: {
            /** @description Each stands in for a code once. Shown only here; those before are void. */
            recoveryCodes: string[];
            session: components["schemas"]["TotpConfirmedSession"];
        };
        FactorChangeInput: {
            /** @description Of the account, again: who finds an open browser has not got it. */
            password: string;
            /** @description Six digits of the authenticator, or a recovery code; spaces and dashes do not matter. */
            code: string;
        };
        RecoveryCodes: {
            /** @description Each stands in for a code once. Shown only here; those before are void. */
            recoveryCodes: string[];
        };
        PasskeyRequest: {
            /**
             * Format: uuid
             * @description Of the options; each is answered once, within five minutes.
             */
            challengeId: string;
            options: components["schemas"]["PasskeyRequestOptions"];
        };
        PasskeySignInInput: {
            /**
             * Format: uuid
             * @description Of the options; each is answered once, within five minutes.
             */
            challengeId: string;
            credential: components["schemas"]["PasskeySignInCredentialInput"];
        };
        PasskeyList: {
            items: components["schemas"]["Passkey"][];
        };
        PasskeyOptionsInput: {
            /** @description Of the account, again. */
            password: string;
        };
        PasskeyCreation: {
            /**
             * Format: uuid
             * @description Of the options; each is answered once, within five minutes.
             */
            challengeId: string;
            options: components["schemas"]["PasskeyCreationOptions"];
        };
        PasskeyInput: {
            /**
             * Format: uuid
             * @description Of the options; each is answered once, within five minutes.
             */
            challengeId: string;
            /** @description For your own list, e.g. “phone”. */
            name: string;
            credential: components["schemas"]["PasskeyCredentialInput"];
        };
        Passkey: {
            id: string;
            name: string;
            /** Format: date-time */
            createdAt: string;
            lastUsedAt: string | null;
        };
        PasskeyPatch: {
            name: string;
        };
        AccessSettings: {
            /** @description Members come into the yard only in a session in which a second factor was shown. Switching it on ends the program keys that there are. */
            secondFactorRequired: boolean;
            /** @description Owners read who works on their boat. */
            ownersSeeCrew: boolean;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        AccessSettingsPatch: {
            /** @description Members come into the yard only in a session in which a second factor was shown. Switching it on ends the program keys that there are. */
            secondFactorRequired?: boolean;
            /** @description Owners read who works on their boat. */
            ownersSeeCrew?: boolean;
        };
        LiveSettings: {
            /** @description For so long whoever reported work may take it back; 0: only the foreman may. */
            undoMinutes: number;
            /** @description A claim that nobody starts within it is free again. */
            leaseSeconds: number;
            /** @description A candidate plan that moves no more tasks than that is published at once; null: none is, the foreman decides. */
            publishMovesUpTo: number | null;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        LiveSettingsPatch: {
            /** @description For so long whoever reported work may take it back; 0: only the foreman may. */
            undoMinutes?: number;
            /** @description A claim that nobody starts within it is free again. */
            leaseSeconds?: number;
            /** @description A candidate plan that moves no more tasks than that is published at once; null: none is, the foreman decides. */
            publishMovesUpTo?: number | null;
        };
        YardList: {
            items: components["schemas"]["Yard"][];
        };
        YardFileInput: {
            /** @constant */
            format: "curewright-yard";
            /** @constant */
            version: 1;
            id: string;
            name: string;
            /** @description IANA zone, e.g. Europe/London */
            timeZone: string;
            /** Format: date-time */
            planFrom: string;
            /** @default 60 */
            horizonDays?: number;
            /**
             * @description ISO 4217; amounts are in hundredths of it
             * @default EUR
             */
            currency?: string;
            /** @default 5000 */
            moneyTolerance?: number;
            /** @default 50 */
            cupShare?: number;
            /** @default null */
            powerWatts?: number | null;
            /** @default [] */
            consumables?: components["schemas"]["ConsumableInput"][];
            /** @default null */
            outdoor?: components["schemas"]["OutdoorInput"] | null;
            /** @default [] */
            skills?: components["schemas"]["SkillInput"][];
            /** @default [] */
            people?: components["schemas"]["PersonInput"][];
            /** @default [] */
            spaces?: components["schemas"]["SpaceInput"][];
            /** @default [] */
            tools?: components["schemas"]["ToolInput"][];
            /** @default [] */
            stocks?: components["schemas"]["StockInput"][];
            /** @default [] */
            barriers?: components["schemas"]["BarrierInput"][];
            /** @default [] */
            slotLists?: components["schemas"]["SlotListInput"][];
            /** @default [] */
            deliveries?: components["schemas"]["DeliveryInput"][];
            /** @default [] */
            materials?: components["schemas"]["MaterialInput"][];
            /** @default [] */
            fabrics?: components["schemas"]["FabricInput"][];
            /** @default [] */
            readings?: components["schemas"]["ReadingInput"][];
            /** @default [] */
            observations?: components["schemas"]["ObservationInput"][];
            /** @default [] */
            procedures?: components["schemas"]["ProcedureInput"][];
            /** @default [] */
            boats?: components["schemas"]["BoatInput"][];
        };
        Yard: {
            id: string;
            name: string;
            /** @description IANA zone, e.g. Europe/London */
            timeZone: string;
            /** Format: date-time */
            planFrom: string;
            /** @default 60 */
            horizonDays: number;
            /**
             * @description ISO 4217; amounts are in hundredths of it
             * @default EUR
             */
            currency: string;
            /** @default 5000 */
            moneyTolerance: number;
            /** @default 50 */
            cupShare: number;
            /** @default null */
            powerWatts: number | null;
            /** @default [] */
            consumables: components["schemas"]["Consumable"][];
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        YardPatch: {
            name?: string;
            /** @description IANA zone, e.g. Europe/London */
            timeZone?: string;
            /** Format: date-time */
            planFrom?: string;
            horizonDays?: number;
            currency?: string;
            moneyTolerance?: number;
            cupShare?: number;
            powerWatts?: number | null;
            consumables?: components["schemas"]["ConsumableInput"][];
        };
        YardWarnings: {
            items: components["schemas"]["YardWarning"][];
        };
        Outdoor: {
            /** Format: date-time */
            from: string;
            celsius: number[];
            /** @default [] */
            humidity: number[];
            source: string;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        OutdoorInput: {
            /** Format: date-time */
            from: string;
            celsius: number[];
            /** @default [] */
            humidity?: number[];
            source: string;
        };
        PersonPage: {
            items: components["schemas"]["Person"][];
            nextCursor: string | null;
        };
        Person: {
            id: string;
            name: string;
            /** @default null */
            email: string | null;
            roles: ("foreman" | "builder" | "owner")[];
            /** @default [] */
            abilities: components["schemas"]["Ability"][];
            /** @default [] */
            shifts: components["schemas"]["WeeklyShift"][];
            /** @default [] */
            exceptions: components["schemas"]["ShiftException"][];
            /** @description Cents; null where it is not the caller’s to know. */
            hourlyCost: number | null;
            /** @default [] */
            overtime: components["schemas"]["Overtime"][];
            /** @description Cents; null where it is not the caller’s to know. */
            overtimeHourlyExtra: number | null;
            /** @description Whether somebody signs in as this person. */
            hasAccount: boolean;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        PersonInput: {
            id: string;
            name: string;
            /** @default null */
            email?: string | null;
            roles: ("foreman" | "builder" | "owner")[];
            /** @default [] */
            abilities?: components["schemas"]["AbilityInput"][];
            /** @default [] */
            shifts?: components["schemas"]["WeeklyShiftInput"][];
            /** @default [] */
            exceptions?: components["schemas"]["ShiftExceptionInput"][];
            /** @default 0 */
            hourlyCost?: number;
            /** @default [] */
            overtime?: components["schemas"]["OvertimeInput"][];
            /** @default 0 */
            overtimeHourlyExtra?: number;
        };
        PersonPatch: {
            name?: string;
            email?: string | null;
            roles?: ("foreman" | "builder" | "owner")[];
            abilities?: components["schemas"]["AbilityInput"][];
            shifts?: components["schemas"]["WeeklyShiftInput"][];
            exceptions?: components["schemas"]["ShiftExceptionInput"][];
            hourlyCost?: number;
            overtime?: components["schemas"]["OvertimeInput"][];
            overtimeHourlyExtra?: number;
        };
        InvitationPage: {
            items: components["schemas"]["Invitation"][];
            nextCursor: string | null;
        };
        InvitationInput: {
            /** @default null */
            email?: string | null;
            /** @default 7 */
            days?: number;
        };
        NewInvitation: {
            id: string;
            personId: string;
            person: string;
            /** @description Where the link was sent; null where it was handed over. */
            email: string | null;
            invitedBy: string;
            /** @enum {string} */
            state: "open" | "accepted" | "expired" | "revoked";
            /** Format: date-time */
            createdAt: string;
            /** Format: date-time */
            expiresAt: string;
            acceptedAt: string | null;
            revokedAt: string | null;
            /** @description Whoever opens it becomes the person, once; it is shown only here. Null where the command is repeated. */
            link: string | null;
            /** @description Whether the mail with the link has gone out. False too while that is still being tried: hand it over yourself, or wait. */
            mailed: boolean;
        };
        InvitationTokenInput: {
            /** @description What stands behind the # of the link. */
            token: string;
        };
        InvitationPreview: {
            yard: string;
            person: string;
            /** Format: date-time */
            expiresAt: string;
            /** @description A new account has to name its e-mail; else it is where the link was sent. */
            needsEmail: boolean;
        };
        InvitationAcceptanceInput: {
            /** @description What stands behind the # of the link. */
            token: string;
            /** @description The person’s name in the yard unless told. */
            name?: string;
            /** Format: email */
            email?: string;
            password?: string;
        };
        Joining: {
            yardId: string;
            yard: string;
            personId: string;
            person: string;
            /** @description Of an account that was made just now. */
            session: components["schemas"]["Session"] | null;
        };
        ProgramKeyPage: {
            items: components["schemas"]["ProgramKey"][];
            nextCursor: string | null;
        };
        ProgramKeyInput: {
            /** @description What the key is for. */
            name: string;
            /** @description read changes nothing, work is a builder’s day, manage the foreman’s. */
            scopes: ("read" | "work" | "manage")[];
            /** @default 90 */
            days?: number;
            /** @description Of the account, again: a key outlives the session that somebody left open. */
            password: string;
        };
        NewProgramKey: {
            id: string;
            /** @description Whose it is: it does what they may, as far as its scopes reach. */
            personId: string;
            person: string;
            name: string;
            scopes: ("read" | "work" | "manage")[];
            /** @enum {string} */
            state: "open" | "expired" | "revoked";
            /** Format: date-time */
            createdAt: string;
            /** Format: date-time */
            expiresAt: string;
            /** @description To the minute; null: never used. */
            lastUsedAt: string | null;
            revokedAt: string | null;
            /** @description Send it as `Authorization: Bearer …`; it is shown only here. Null where the command is repeated. */
            token: string | null;
        };
        AuditEntryPage: {
            items: components["schemas"]["AuditEntry"][];
            nextCursor: string | null;
        };
        SkillPage: {
            items: components["schemas"]["Skill"][];
            nextCursor: string | null;
        };
        Skill: {
            id: string;
            name: string;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        SkillInput: {
            id: string;
            name: string;
        };
        SkillPatch: {
            name?: string;
        };
        SpacePage: {
            items: components["schemas"]["Space"][];
            nextCursor: string | null;
        };
        Space: {
            id: string;
            name: string;
            climate: components["schemas"]["Climate"];
            /** @default null */
            bandC: number | null;
            /** @default null */
            humidity: components["schemas"]["SpaceHumidity"] | null;
            /** @default null */
            skin: components["schemas"]["Skin"] | null;
            /** @default [] */
            changes: components["schemas"]["ClimateChange"][];
            /** @default false */
            enclosed: boolean;
            room: number;
            /** @default 100 */
            workPercent: number;
            /** @default [] */
            taken: components["schemas"]["Absence"][];
            /** @default null */
            hours: components["schemas"]["Hours"][] | null;
            dustReaches: string[];
            settlingMinutes: number;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        SpaceInput: {
            id: string;
            name: string;
            climate: components["schemas"]["ClimateInput"];
            /** @default null */
            bandC?: number | null;
            /** @default null */
            humidity?: components["schemas"]["SpaceHumidityInput"] | null;
            /** @default null */
            skin?: components["schemas"]["SkinInput"] | null;
            /** @default [] */
            changes?: components["schemas"]["ClimateChangeInput"][];
            /** @default false */
            enclosed?: boolean;
            room: number;
            /** @default 100 */
            workPercent?: number;
            /** @default [] */
            taken?: components["schemas"]["AbsenceInput"][];
            /** @default null */
            hours?: components["schemas"]["HoursInput"][] | null;
            dustReaches: string[];
            settlingMinutes: number;
        };
        SpacePatch: {
            name?: string;
            climate?: components["schemas"]["ClimateInput"];
            bandC?: number | null;
            humidity?: components["schemas"]["SpaceHumidityInput"] | null;
            skin?: components["schemas"]["SkinInput"] | null;
            changes?: components["schemas"]["ClimateChangeInput"][];
            enclosed?: boolean;
            room?: number;
            workPercent?: number;
            taken?: components["schemas"]["AbsenceInput"][];
            hours?: components["schemas"]["HoursInput"][] | null;
            dustReaches?: string[];
            settlingMinutes?: number;
        };
        ToolPage: {
            items: components["schemas"]["Tool"][];
            nextCursor: string | null;
        };
        Tool: {
            id: string;
            name: string;
            count: number;
            /** @default [] */
            away: components["schemas"]["Absence"][];
            /** @default null */
            hours: components["schemas"]["Hours"][] | null;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        ToolInput: {
            id: string;
            name: string;
            count: number;
            /** @default [] */
            away?: components["schemas"]["AbsenceInput"][];
            /** @default null */
            hours?: components["schemas"]["HoursInput"][] | null;
        };
        ToolPatch: {
            name?: string;
            count?: number;
            away?: components["schemas"]["AbsenceInput"][];
            hours?: components["schemas"]["HoursInput"][] | null;
        };
        StockPage: {
            items: components["schemas"]["Stock"][];
            nextCursor: string | null;
        };
        Stock: {
            id: string;
            name: string;
            unit: string;
            total: number;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        StockInput: {
            id: string;
            name: string;
            unit: string;
            total: number;
        };
        StockPatch: {
            name?: string;
            unit?: string;
            total?: number;
        };
        BarrierPage: {
            items: components["schemas"]["Barrier"][];
            nextCursor: string | null;
        };
        Barrier: {
            id: string;
            name: string;
            /** @default false */
            closed: boolean;
            blocks: components["schemas"]["DustWay"][];
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        BarrierInput: {
            id: string;
            name: string;
            /** @default false */
            closed?: boolean;
            blocks: components["schemas"]["DustWayInput"][];
        };
        BarrierPatch: {
            name?: string;
            closed?: boolean;
            blocks?: components["schemas"]["DustWayInput"][];
        };
        SlotListPage: {
            items: components["schemas"]["SlotList"][];
            nextCursor: string | null;
        };
        SlotList: {
            id: string;
            name: string;
            /** @enum {string} */
            kind: "crane" | "tide" | "truck" | "surveyor" | "subcontractor";
            /** @default [] */
            slots: components["schemas"]["Slot"][];
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        SlotListInput: {
            id: string;
            name: string;
            /** @enum {string} */
            kind: "crane" | "tide" | "truck" | "surveyor" | "subcontractor";
            /** @default [] */
            slots?: components["schemas"]["SlotInput"][];
        };
        SlotListPatch: {
            name?: string;
            /** @enum {string} */
            kind?: "crane" | "tide" | "truck" | "surveyor" | "subcontractor";
            slots?: components["schemas"]["SlotInput"][];
        };
        DeliveryPage: {
            items: components["schemas"]["Delivery"][];
            nextCursor: string | null;
        };
        Delivery: {
            id: string;
            name: string;
            /** Format: date-time */
            expected: string;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        DeliveryInput: {
            id: string;
            name: string;
            /** Format: date-time */
            expected: string;
        };
        DeliveryPatch: {
            name?: string;
            /** Format: date-time */
            expected?: string;
        };
        MaterialClassList: {
            /** @description The version of the catalogue. */
            catalogue: string;
            items: components["schemas"]["MaterialClass"][];
        };
        MaterialClass: {
            id: string;
            name: string;
            classId: string | null;
            /** @description The version of the catalogue of classes. */
            catalogue: string;
            /** @enum {string} */
            base: "polyester" | "vinyl-ester" | "epoxy";
            /** @enum {string} */
            use: "laminating" | "gel-coat" | "finish" | "glue" | "fairing";
            /** @enum {string} */
            surface: "inhibited" | "sealed";
            waxed: boolean;
            blushes: boolean;
            /** @enum {string} */
            belowMinimum: "stalls" | "spoils";
            /** @enum {string} */
            dampAir: "refuse" | "warn";
            /** @description Null: nothing can be weighed until it is entered. */
            hardener: components["schemas"]["SheetHardener"] | null;
            times: components["schemas"]["MilestoneTimes"][];
            lines: components["schemas"]["SheetLine"][];
            /** @description What the yard has to enter from its data sheet before it is reckoned with. */
            missing: components["schemas"]["MissingLine"][];
            /** @description Never to be switched off. */
            cautions: components["schemas"]["Caution"][];
        };
        CatalogueFabricList: {
            /** @description The version of the catalogue. */
            catalogue: string;
            items: components["schemas"]["CatalogueFabric"][];
        };
        BondRuleList: {
            /** @description The version of the catalogue. */
            catalogue: string;
            /** @description The first whose conditions hold is the answer. */
            items: components["schemas"]["BondRule"][];
        };
        BondCheckInput: {
            surface: components["schemas"]["SurfaceInput"];
            next: components["schemas"]["NextCoatInput"];
        };
        BondAnswer: {
            rule: string;
            /** @enum {string} */
            bond: "chemical" | "mechanical" | "wait" | "refused";
            /** @description What has still to be done, in order. */
            preparation: components["schemas"]["PreparationStep"][];
            warnings: string[];
            reason: string;
            /** @enum {string} */
            trust: "read" | "code" | "calculated" | "memory" | "practice" | "sheet" | "measured";
            source: string;
        };
        PartSurface: {
            partId: string;
            /** Format: date-time */
            at: string;
            /** @description Null: nothing is known of it, neither layers nor finished work. */
            surface: components["schemas"]["ExposedSurface"] | null;
            /** @description Of the material asked about. */
            bond: components["schemas"]["BondAnswer"] | null;
        };
        MaterialPage: {
            items: components["schemas"]["Material"][];
            nextCursor: string | null;
        };
        Material: {
            id: string;
            name: string;
            /** @default null */
            classId: string | null;
            /** @enum {string} */
            resinSystem: "polyester" | "vinyl-ester" | "epoxy";
            /** @default null */
            use: ("laminating" | "gel-coat" | "finish" | "glue" | "fairing") | null;
            /** @default null */
            surface: ("inhibited" | "sealed") | null;
            /** @default null */
            waxed: boolean | null;
            /** @default null */
            blushes: boolean | null;
            /** @default null */
            minimumC: number | null;
            /** @default null */
            maximumC: number | null;
            /** @default null */
            warnBelowC: number | null;
            /** @default null */
            belowMinimum: ("stalls" | "spoils") | null;
            /** @default [] */
            milestones: components["schemas"]["CureTable"][];
            /** @default null */
            maximumHumidity: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            minimumDewMarginC: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            dampAir: ("refuse" | "warn") | null;
            /** @default null */
            preheatHours: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            holdHours: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            hardener: components["schemas"]["Hardener"] | null;
            /** @default null */
            massPower: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            thicknessPower: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            referenceGrams: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            referenceMm: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            resinDensity: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            hardenerDensity: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            mixedDensity: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            gramsPerM2: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            shelfLifeDays: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            keptIn: string | null;
            /** @default 0 */
            keptLagHours: number;
            /** @default false */
            isocyanate: boolean;
            /** @default [] */
            cautions: string[];
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        MaterialSheet: {
            id: string;
            name: string;
            classId: string | null;
            /** @description The version of the catalogue of classes. */
            catalogue: string;
            /** @enum {string} */
            base: "polyester" | "vinyl-ester" | "epoxy";
            /** @enum {string} */
            use: "laminating" | "gel-coat" | "finish" | "glue" | "fairing";
            /** @enum {string} */
            surface: "inhibited" | "sealed";
            waxed: boolean;
            blushes: boolean;
            /** @enum {string} */
            belowMinimum: "stalls" | "spoils";
            /** @enum {string} */
            dampAir: "refuse" | "warn";
            /** @description Null: nothing can be weighed until it is entered. */
            hardener: components["schemas"]["SheetHardener"] | null;
            times: components["schemas"]["MilestoneTimes"][];
            lines: components["schemas"]["SheetLine"][];
            /** @description What the yard has to enter from its data sheet before it is reckoned with. */
            missing: components["schemas"]["MissingLine"][];
            /** @description Never to be switched off. */
            cautions: components["schemas"]["Caution"][];
        };
        MaterialVersionList: {
            /** @description Newest first. */
            items: components["schemas"]["MaterialVersion"][];
        };
        MaterialInput: {
            id: string;
            name: string;
            /** @default null */
            classId?: string | null;
            /** @enum {string} */
            resinSystem: "polyester" | "vinyl-ester" | "epoxy";
            /** @default null */
            use?: ("laminating" | "gel-coat" | "finish" | "glue" | "fairing") | null;
            /** @default null */
            surface?: ("inhibited" | "sealed") | null;
            /** @default null */
            waxed?: boolean | null;
            /** @default null */
            blushes?: boolean | null;
            /** @default null */
            minimumC?: number | null;
            /** @default null */
            maximumC?: number | null;
            /** @default null */
            warnBelowC?: number | null;
            /** @default null */
            belowMinimum?: ("stalls" | "spoils") | null;
            /** @default [] */
            milestones?: components["schemas"]["CureTableInput"][];
            /** @default null */
            maximumHumidity?: components["schemas"]["SheetFigureInput"] | null;
            /** @default null */
            minimumDewMarginC?: components["schemas"]["SheetFigureInput"] | null;
            /** @default null */
            dampAir?: ("refuse" | "warn") | null;
            /** @default null */
            preheatHours?: components["schemas"]["SheetFigureInput"] | null;
            /** @default null */
            holdHours?: components["schemas"]["SheetFigureInput"] | null;
            /** @default null */
            hardener?: components["schemas"]["HardenerInput"] | null;
            /** @default null */
            massPower?: components["schemas"]["SheetFigureInput"] | null;
            /** @default null */
            thicknessPower?: components["schemas"]["SheetFigureInput"] | null;
            /** @default null */
            referenceGrams?: components["schemas"]["SheetFigureInput"] | null;
            /** @default null */
            referenceMm?: components["schemas"]["SheetFigureInput"] | null;
            /** @default null */
            resinDensity?: components["schemas"]["SheetFigureInput"] | null;
            /** @default null */
            hardenerDensity?: components["schemas"]["SheetFigureInput"] | null;
            /** @default null */
            mixedDensity?: components["schemas"]["SheetFigureInput"] | null;
            /** @default null */
            gramsPerM2?: components["schemas"]["SheetFigureInput"] | null;
            /** @default null */
            shelfLifeDays?: components["schemas"]["SheetFigureInput"] | null;
            /** @default null */
            keptIn?: string | null;
            /** @default 0 */
            keptLagHours?: number;
            /** @default false */
            isocyanate?: boolean;
            /** @default [] */
            cautions?: string[];
        };
        MaterialPatch: {
            name?: string;
            classId?: string | null;
            /** @enum {string} */
            resinSystem?: "polyester" | "vinyl-ester" | "epoxy";
            use?: ("laminating" | "gel-coat" | "finish" | "glue" | "fairing") | null;
            surface?: ("inhibited" | "sealed") | null;
            waxed?: boolean | null;
            blushes?: boolean | null;
            minimumC?: number | null;
            maximumC?: number | null;
            warnBelowC?: number | null;
            belowMinimum?: ("stalls" | "spoils") | null;
            milestones?: components["schemas"]["CureTableInput"][];
            maximumHumidity?: components["schemas"]["SheetFigureInput"] | null;
            minimumDewMarginC?: components["schemas"]["SheetFigureInput"] | null;
            dampAir?: ("refuse" | "warn") | null;
            preheatHours?: components["schemas"]["SheetFigureInput"] | null;
            holdHours?: components["schemas"]["SheetFigureInput"] | null;
            hardener?: components["schemas"]["HardenerInput"] | null;
            massPower?: components["schemas"]["SheetFigureInput"] | null;
            thicknessPower?: components["schemas"]["SheetFigureInput"] | null;
            referenceGrams?: components["schemas"]["SheetFigureInput"] | null;
            referenceMm?: components["schemas"]["SheetFigureInput"] | null;
            resinDensity?: components["schemas"]["SheetFigureInput"] | null;
            hardenerDensity?: components["schemas"]["SheetFigureInput"] | null;
            mixedDensity?: components["schemas"]["SheetFigureInput"] | null;
            gramsPerM2?: components["schemas"]["SheetFigureInput"] | null;
            shelfLifeDays?: components["schemas"]["SheetFigureInput"] | null;
            keptIn?: string | null;
            keptLagHours?: number;
            isocyanate?: boolean;
            cautions?: string[];
        };
        FabricPage: {
            items: components["schemas"]["Fabric"][];
            nextCursor: string | null;
        };
        Fabric: {
            id: string;
            name: string;
            gramsPerM2: number;
            resinRatio: number;
            /**
             * @default none
             * @enum {string}
             */
            binder: "none" | "powder" | "styrene-soluble";
            source: string;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        FabricInput: {
            id: string;
            name: string;
            gramsPerM2: number;
            resinRatio: number;
            /**
             * @default none
             * @enum {string}
             */
            binder?: "none" | "powder" | "styrene-soluble";
            source: string;
        };
        FabricPatch: {
            name?: string;
            gramsPerM2?: number;
            resinRatio?: number;
            /** @enum {string} */
            binder?: "none" | "powder" | "styrene-soluble";
            source?: string;
        };
        ReadingPage: {
            items: components["schemas"]["Reading"][];
            nextCursor: string | null;
        };
        Reading: {
            id: string;
            space: string;
            /**
             * @default air
             * @enum {string}
             */
            of: "air" | "surface";
            /** Format: date-time */
            at: string;
            /** @default 0 */
            minutes: number;
            celsius: number;
            /** @default null */
            humidity: number | null;
            /** @default  */
            note: string;
        };
        ReadingsInput: {
            readings: components["schemas"]["NewReadingInput"][];
            /**
             * Format: date-time
             * @description What that clock says as this is sent, anew with each attempt: by how far the clock is off `at` is corrected.
             */
            sentAt?: string;
            /**
             * @description Leave out what the yard has already, the same in all but id and note: many loggers tell all they hold each time.
             * @default false
             */
            skipKnown?: boolean;
        };
        ReadingList: {
            /** @description Those that were added. */
            items: components["schemas"]["Reading"][];
            /** @description How many the yard had already. */
            skipped: number;
        };
        ObservationPage: {
            items: components["schemas"]["Observation"][];
            nextCursor: string | null;
        };
        Observation: {
            id: string;
            material: string;
            /** @enum {string} */
            milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
            /** @enum {string} */
            found: "just-now" | "already" | "not-yet";
            space: string;
            /** Format: date-time */
            laidAt: string;
            /** Format: date-time */
            at: string;
            /** @default null */
            grams: number | null;
            /** @default null */
            hardenerPercent: number | null;
            /** @default  */
            note: string;
        };
        NewObservationInput: {
            /** @description Left out: the service gives it one. */
            id?: string;
            material: string;
            /** @enum {string} */
            milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
            /** @enum {string} */
            found: "just-now" | "already" | "not-yet";
            space: string;
            /** Format: date-time */
            laidAt: string;
            /** Format: date-time */
            at: string;
            /** @default null */
            grams?: number | null;
            /** @default null */
            hardenerPercent?: number | null;
            /** @default  */
            note?: string;
            /**
             * Format: date-time
             * @description What that clock says as this is sent, anew with each attempt: by how far the clock is off `at` is corrected.
             */
            sentAt?: string;
        };
        TackTestInput: {
            /**
             * @description Wet, tacky, clogs the paper, or sands dry.
             * @enum {string}
             */
            found: "still-wet" | "tacky" | "clogs" | "dry";
            /** @default  */
            note?: string;
            /**
             * Format: date-time
             * @description When it really was, by the clock of whoever reports it; left out, now.
             */
            at?: string;
            /**
             * Format: date-time
             * @description What that clock says as this is sent, anew with each attempt: by how far the clock is off `at` is corrected.
             */
            sentAt?: string;
        };
        TackTested: {
            /** @description What the test says of the film’s milestones. */
            items: components["schemas"]["Observation"][];
        };
        MaterialCalibration: {
            materialId: string;
            /** @description Those that something was observed of and the sheet has a number for. */
            milestones: components["schemas"]["MilestoneCalibration"][];
            /** @description Of the yard’s own cups; null where they do not say, or the yard states it. */
            massPower: components["schemas"]["MassFit"] | null;
            /** @description Observations of milestones that the sheet has no number for: nothing to correct. */
            unused: string[];
        };
        FilmTimes: {
            materialId: string;
            /** @description Null: at a constant temperature. */
            spaceId: string | null;
            /** @description By time; what is not within sight comes last. */
            marks: components["schemas"]["FilmMark"][];
            windows: components["schemas"]["FilmWindow"][];
            /** @description Milestones that the sheet has no number for, with the line to enter. */
            missing: components["schemas"]["MissingLine"][];
            /** @description Until the last of the marks the outdoor table does not say it all: a day is repeated. */
            assumed: boolean;
            horizon: components["schemas"]["When"];
        };
        LatestStart: {
            materialId: string;
            spaceId: string;
            /** @enum {string} */
            milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
            /** @description Null: at no time that was looked at. */
            start: components["schemas"]["When"] | null;
            /**
             * @description Of a milestone that ends something it is the earliest start.
             * @enum {string}
             */
            bound: "latest" | "earliest";
            /** @description From the start on the outdoor table does not say it all: a day is repeated. */
            assumed: boolean;
            words: string;
        };
        SpaceClimate: {
            spaceId: string;
            materialId: string | null;
            hours: components["schemas"]["ClimateHour"][];
        };
        ProcedurePage: {
            items: components["schemas"]["Procedure"][];
            nextCursor: string | null;
        };
        Procedure: {
            id: string;
            version: number;
            name: string;
            steps: components["schemas"]["Step"][];
            links: components["schemas"]["Link"][];
            /** @default [] */
            choices: components["schemas"]["Choice"][];
        };
        ProcedurePreviewInput: {
            /** @description A part of the yard: its sizes and its space, but for those given. */
            part?: string;
            areaM2?: number;
            edgeM?: number;
            jointM?: number;
            space?: string;
            /** @description Where moves to the job’s destination go. */
            destination?: string;
            /** @description Left out: the current one. */
            version?: number;
            /** @description A version that is not saved, in the place of those there are. */
            draft?: components["schemas"]["ProcedureDraftInput"];
        };
        ProcedurePreview: {
            procedureId: string;
            /** @description Null: a draft. */
            version: number | null;
            name: string;
            areaM2: number;
            edgeM: number;
            jointM: number;
            /** @description Builder-minutes by the shortest way through the choices. */
            leastMinutes: number;
            mostMinutes: number;
            /** @description Cents, of all tasks but those of choices. */
            price: number;
            tasks: components["schemas"]["PreviewTask"][];
            choices: components["schemas"]["PreviewChoice"][];
        };
        NewProcedureInput: {
            id: string;
            name: string;
            steps: components["schemas"]["StepInput"][];
            links: components["schemas"]["LinkInput"][];
            /** @default [] */
            choices?: components["schemas"]["ChoiceInput"][];
        };
        ProcedureVersionInput: {
            name: string;
            steps: components["schemas"]["StepInput"][];
            links: components["schemas"]["LinkInput"][];
            /** @default [] */
            choices?: components["schemas"]["ChoiceInput"][];
            /** @description The version that this one was written from: refused as stale where there is a newer one. Left out: it comes after whichever is there. */
            fromVersion?: number;
        };
        BoatPage: {
            items: components["schemas"]["Boat"][];
            nextCursor: string | null;
        };
        Boat: {
            id: string;
            name: string;
            /** @default null */
            owner: string | null;
            refits: components["schemas"]["Refit"][];
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        BoatInput: {
            id: string;
            name: string;
            /** @default null */
            owner?: string | null;
            /** @default [] */
            refits?: components["schemas"]["RefitInput"][];
        };
        BoatPatch: {
            name?: string;
            owner?: string | null;
        };
        RefitInput: {
            id: string;
            name: string;
            /** Format: date-time */
            release: string;
            /** @default null */
            promised?: string | null;
            /** @default [] */
            handovers?: string[];
            /** @default 1 */
            weight?: number;
            /** @default [] */
            parts?: components["schemas"]["PartInput"][];
        };
        Refit: {
            id: string;
            name: string;
            /** Format: date-time */
            release: string;
            /** @default null */
            promised: string | null;
            /** @default [] */
            handovers: string[];
            /** @default 1 */
            weight: number;
            parts: components["schemas"]["Part"][];
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        RefitPatch: {
            name?: string;
            /** Format: date-time */
            release?: string;
            promised?: string | null;
            handovers?: string[];
            weight?: number;
        };
        PartInput: {
            id: string;
            name: string;
            space: string;
            areaM2: number;
            /** @default 0 */
            edgeM?: number;
            /** @default 0 */
            jointM?: number;
            /** @default [] */
            layers?: components["schemas"]["LayerInput"][];
            /** @default [] */
            jobs?: components["schemas"]["JobInput"][];
        };
        Part: {
            id: string;
            name: string;
            space: string;
            areaM2: number;
            /** @default 0 */
            edgeM: number;
            /** @default 0 */
            jointM: number;
            /** @default [] */
            layers: components["schemas"]["Layer"][];
            jobs: components["schemas"]["Job"][];
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        PartPatch: {
            name?: string;
            space?: string;
            areaM2?: number;
            edgeM?: number;
            jointM?: number;
            layers?: components["schemas"]["LayerInput"][];
        };
        JobInput: {
            id: string;
            procedure: string;
            /** @default [] */
            after?: string[];
            /** @default null */
            destination?: string | null;
            /** @default [] */
            joins?: string[];
            /** @default [] */
            waitsFor?: components["schemas"]["WaitsForInput"][];
            /** @default [] */
            words?: components["schemas"]["WordInput"][];
        };
        Job: {
            id: string;
            procedure: string;
            /** @default [] */
            after: string[];
            /** @default null */
            destination: string | null;
            /** @default [] */
            joins: string[];
            /** @default [] */
            waitsFor: components["schemas"]["WaitsFor"][];
            /** @default [] */
            words: components["schemas"]["Word"][];
            /** @description The version its tasks were made from. */
            procedureVersion: number;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        JobPatch: {
            waitsFor?: components["schemas"]["WaitsForInput"][];
            words?: components["schemas"]["WordInput"][];
        };
        PlanRunPage: {
            items: components["schemas"]["PlanRun"][];
            nextCursor: string | null;
        };
        PlanRun: {
            id: string;
            requestedBy: string | null;
            /**
             * @description `disturbance`: something happened.
             * @enum {string}
             */
            purpose: "asked" | "disturbance";
            /** @description What happened, where that is its purpose. */
            cause: string[];
            seed: number;
            /** @description The time it may take. */
            seconds: number | null;
            iterationLimit: number | null;
            /** @description Nothing that waits is planned earlier; null for the first moment of the yard. */
            notBefore: string | null;
            /** @description Above 1 where a worker died with it. */
            attempts: number;
            /** @enum {string} */
            status: "queued" | "running" | "finished" | "stopped" | "failed" | "infeasible";
            stopRequested: boolean;
            iterations: number;
            /** @description When the last refit would be done. */
            bestFinish: string | null;
            /** @description Weighted minutes late, best so far. */
            bestLateness: number | null;
            /** @description Weighted finishes, minutes. */
            bestFinishes: number | null;
            /** @description No plan can be less late. */
            boundLateness: number | null;
            /** @description No plan can finish earlier. */
            boundFinishes: number | null;
            /**
             * @description Cents, of the best so far.
             * @default null
             */
            bestMoney: number | null;
            /**
             * @description What the best so far moves of the published plan, weighted.
             * @default null
             */
            bestDisturbance: number | null;
            /**
             * @description No plan that is as early can cost less.
             * @default null
             */
            boundMoney: number | null;
            /**
             * @description No plan that is as early and as cheap can move less.
             * @default null
             */
            boundDisturbance: number | null;
            /** @description How far the best may be from the best possible, as a share of the time the refits take. */
            gap: number | null;
            /**
             * @description Milliseconds of computing before the first plan was there; known once the run has ended.
             * @default null
             */
            firstPlanMs: number | null;
            planId: string | null;
            error: string | null;
            /** @description Why there is no plan, in words. */
            why: string[];
            /** @description What keeps the yard from being planned. */
            faults: components["schemas"]["RunFault"][];
            /** Format: date-time */
            createdAt: string;
            startedAt: string | null;
            finishedAt: string | null;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        PlanRunInput: {
            /** @description 10 unless told. */
            seconds?: number;
            /** @description With the same seed and yard the plan is then the same. */
            iterations?: number;
            /** @default 0 */
            seed?: number;
            /**
             * Format: date-time
             * @description Unless told: now, or where the yard’s plan lies in another time, its beginning.
             */
            notBefore?: string;
        };
        PlanSummaryPage: {
            items: components["schemas"]["PlanSummary"][];
            nextCursor: string | null;
        };
        Plan: {
            id: string;
            runId: string;
            /** Format: date-time */
            createdAt: string;
            /** @description Null unless it is the yard’s published plan. */
            publishedAt: string | null;
            engineVersion: string;
            yardId: string;
            yard: string;
            timeZone: string;
            currency: string;
            origin: components["schemas"]["When"];
            horizon: components["schemas"]["When"];
            /** @enum {string} */
            status: "optimal" | "feasible" | "infeasible" | "unknown";
            tasks: components["schemas"]["PlanTask"][];
            choices: components["schemas"]["PlanChoice"][];
            boats: components["schemas"]["PlanBoat"][];
            /** @description In order of importance. */
            ranks: components["schemas"]["PlanRank"][];
            /** @description Null, as its rank is left out, for a builder. */
            money: components["schemas"]["PlanMoney"] | null;
            /** @description Against the plan that was published then. */
            moved: components["schemas"]["PlanMove"][];
            /** @description By week and material. */
            shopping: components["schemas"]["PlanShopping"][];
            /** @description With the numbers that the plan reckoned with. */
            materials: components["schemas"]["PlanMaterial"][];
            caution: string;
        };
        Week: {
            planId: string;
            weekStart: string;
            weekEnd: string;
            /** @enum {string} */
            by: "builder" | "space" | "boat";
            groups: components["schemas"]["WeekGroup"][];
        };
        PlanChains: {
            planId: string;
            boats: components["schemas"]["PlanBoat"][];
        };
        PublishedPlan: {
            planId: string;
            /** Format: date-time */
            publishedAt: string;
            publishedBy: string | null;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        WhyNotEarlier: {
            planId: string;
            taskId: string;
            asked: components["schemas"]["WhyNotEarlierAsked"];
            /** @description Everything against it, what lasts longest first; empty where nothing is. */
            steps: components["schemas"]["ChainStep"][];
        };
        WhatShortens: {
            planId: string;
            refitId: string | null;
            /** @description The largest gain first. What was found: there may be more to gain. */
            shortenings: components["schemas"]["Shortening"][];
        };
        PlanCheck: {
            planId: string;
            problemHash: string;
            /** @description Of the model it was compiled to when the plan was made. */
            problemVersion: number;
            /** @description What the plan breaks of the problem it was made for; empty where nothing. */
            violations: components["schemas"]["PlanViolation"][];
        };
        MixSheets: {
            planId: string;
            day: string | null;
            /** @description By start; tasks that mix something. */
            items: components["schemas"]["TaskMixSheet"][];
        };
        TaskMixSheet: {
            planId: string;
            taskId: string;
            task: string;
            boat: string;
            part: string;
            spaceId: string;
            space: string;
            start: components["schemas"]["When"];
            finish: components["schemas"]["When"];
            /** @description As planned, the window shuts then: the task has to be over. Null: nothing presses. */
            closes: components["schemas"]["When"] | null;
            crew: components["schemas"]["CrewMember"][];
            /** @description Null: it mixes nothing. */
            mix: components["schemas"]["MixSheet"] | null;
            bond: components["schemas"]["PlanBond"] | null;
            consumables: components["schemas"]["PlanAmount"][];
            /** @description When what is laid reaches its milestones. */
            film: components["schemas"]["FilmMark"][];
            warnings: string[];
            /** @description Never to be switched off. */
            cautions: components["schemas"]["Caution"][];
            caution: string;
        };
        PlanShoppingList: {
            planId: string;
            items: components["schemas"]["PlanShopping"][];
        };
        PublishingPage: {
            items: components["schemas"]["Publishing"][];
            nextCursor: string | null;
        };
        PlanPicture: {
            planId: string;
            isPublished: boolean;
            /**
             * Format: date-time
             * @description The moment that what is live is true of.
             */
            at: string;
            /** Format: date */
            from: string;
            days: number;
            /** Format: date-time */
            begins: string;
            /** Format: date-time */
            ends: string;
            /** Format: date-time */
            planFrom: string;
            /** Format: date-time */
            planUntil: string;
            /** @description Worked on in it, or with a film that matters in it; of the published plan, where now is in it, also what should have been over before it and is not, and what is begun before its time. */
            tasks: components["schemas"]["PictureTask"][];
            /** @description Builders, and whoever else has work in it. */
            people: components["schemas"]["PicturePerson"][];
            spaces: components["schemas"]["PictureSpace"][];
            /** @description All of the plan. */
            boats: components["schemas"]["PictureBoat"][];
        };
        TaskOfPlan: {
            planId: string;
            /** @description Null unless it is the yard’s published plan. */
            publishedAt: string | null;
            task: components["schemas"]["PlanTask"];
            /** @description What a plan cannot know. Never to be switched off. */
            caution: string;
        };
        PlacementInput: {
            /**
             * Format: date-time
             * @description From when on it may begin, as soon as its people work; unless told as planned.
             */
            start?: string;
            /** @description The whole crew; nobody: as planned. */
            crew?: string[];
        };
        TriedPlacement: {
            planId: string;
            taskId: string;
            /** @description Nothing is against it. */
            isPossible: boolean;
            start: components["schemas"]["TriedPlacementStart"];
            finish: components["schemas"]["When"];
            /** @description The working spans from start to finish. */
            segments: components["schemas"]["WorkSpan"][];
            crew: components["schemas"]["CrewMember"][];
            /** @description What it would break; what is about the task itself first. */
            against: components["schemas"]["AgainstPlacement"][];
            /** @description What would come of it for its boat. */
            effects: string[];
            /** @description Where it is not possible: the first later start found that is. */
            next: components["schemas"]["When"] | null;
        };
        CandidatePage: {
            items: components["schemas"]["Candidate"][];
            nextCursor: string | null;
        };
        CandidateView: {
            planId: string;
            /** @description The published plan that it is to take the place of. */
            basePlanId: string | null;
            /** @enum {string} */
            state: "open" | "published" | "discarded" | "superseded";
            /** @description What happened. */
            cause: string[];
            /** @description Tasks at another time, with other people, new or gone. */
            moved: number;
            /** @description The same, weighted: what is near counts more. */
            disturbance: number;
            /** Format: date-time */
            createdAt: string;
            /** @description Null: nobody yet, or the service by itself. */
            decidedBy: string | null;
            decidedAt: string | null;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
            /** @description What it does not know, while it is open: with that it cannot be published. */
            since: string[];
            /** @description What it changes, in sentences. */
            words: string[];
            boats: components["schemas"]["BoatDifference"][];
            windows: components["schemas"]["WindowsDifference"];
        };
        ReplanRequest: {
            runId: string;
            cause: string[];
        };
        Candidate: {
            planId: string;
            /** @description The published plan that it is to take the place of. */
            basePlanId: string | null;
            /** @enum {string} */
            state: "open" | "published" | "discarded" | "superseded";
            /** @description What happened. */
            cause: string[];
            /** @description Tasks at another time, with other people, new or gone. */
            moved: number;
            /** @description The same, weighted: what is near counts more. */
            disturbance: number;
            /** Format: date-time */
            createdAt: string;
            /** @description Null: nobody yet, or the service by itself. */
            decidedBy: string | null;
            decidedAt: string | null;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        PlanDifference: {
            planId: string;
            fromPlanId: string;
            boats: components["schemas"]["BoatDifference"][];
            /** @description By time; what has begun is not among them. */
            tasks: components["schemas"]["TaskDifference"][];
            /** @description Whom it asks for something else. */
            people: components["schemas"]["PersonDifference"][];
            windows: components["schemas"]["WindowsDifference"];
            /** @description How many tasks. */
            moved: number;
            /** @description The same in sentences, what weighs most first. */
            words: string[];
        };
        TaskPage: {
            items: components["schemas"]["Task"][];
            nextCursor: string | null;
        };
        Task: {
            id: string;
            name: string;
            jobId: string;
            part: string;
            boat: string;
            /** @enum {string} */
            state: "waiting" | "working" | "paused" | "done" | "redo";
            /**
             * @description The same as whoever looks for work sees it.
             * @enum {string}
             */
            stands: "waiting" | "opens" | "ready" | "claimed" | "working" | "paused" | "done" | "redo";
            /** @description When what it waits for is over, where that is known. */
            opensAt: string | null;
            /** @description What keeps it from beginning; null: nothing, or it has begun. */
            why: string | null;
            /** @description Null of a hold point. */
            skill: string | null;
            minLevel: number;
            crewMin: number;
            crewMax: number;
            /** @description It cannot be put aside half done. */
            inOneGo: boolean;
            startedAt: string | null;
            /** @description Time really worked on it, in order; not when it was put aside. */
            spans: components["schemas"]["TaskSpan"][];
            /** @description Of running work: when it is expected. */
            finishedAt: string | null;
            /** @description Builder-minutes at the nominal rate still to be done of begun work, where reported. */
            leftMinutes: number | null;
            /** @description When the foreman wants it begun. */
            fixedStart: string | null;
            /** @description Who does or did it; of waiting work, whom it is set for. */
            crew: components["schemas"]["Claimant"][];
            /** @description Tasks that the foreman wants done before it. */
            after: string[];
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        TaskPatch: {
            /** @description Null: whenever is best. */
            fixedStart?: string | null;
            /** @description The whole crew; empty: whoever is best. */
            crew?: string[];
            /** @description All that it has to come after. */
            after?: string[];
        };
        ReasonInput: {
            reason: string;
            /**
             * Format: date-time
             * @description When it really was, by the clock of whoever reports it; left out, now.
             */
            at?: string;
            /**
             * Format: date-time
             * @description What that clock says as this is sent, anew with each attempt: by how far the clock is off `at` is corrected.
             */
            sentAt?: string;
        };
        MomentOfWorkInput: {
            /**
             * Format: date-time
             * @description When it really was, by the clock of whoever reports it; left out, now.
             */
            at?: string;
            /**
             * Format: date-time
             * @description What that clock says as this is sent, anew with each attempt: by how far the clock is off `at` is corrected.
             */
            sentAt?: string;
        };
        Ready: {
            /**
             * Format: date-time
             * @description The moment that this is true of.
             */
            at: string;
            /** @description The published plan that gave the order. */
            planId: string | null;
            /** @description Of all that is ready, whether it is listed or not. */
            readyCount: number;
            ready: components["schemas"]["ReadyTask"][];
            waitingCount: number;
            waiting: components["schemas"]["WaitingTask"][];
            /** @description `after` of what else waits; null: nothing. */
            nextCursor: string | null;
        };
        ClaimPage: {
            items: components["schemas"]["Claim"][];
            nextCursor: string | null;
        };
        Claim: {
            id: string;
            taskId: string;
            task: string;
            part: string;
            boat: string;
            holder: components["schemas"]["Claimant"];
            crew: components["schemas"]["Claimant"][];
            /** @enum {string} */
            status: "open" | "working" | "paused" | "finished" | "released" | "lapsed";
            /** Format: date-time */
            claimedAt: string;
            /** @description When it is over if nobody has begun; null of one that was begun. */
            lapsesAt: string | null;
            startedAt: string | null;
            finishedAt: string | null;
            /** @description Given back, or lapsed. */
            releasedAt: string | null;
            /** @description Why the foreman had it begun against what the service advised. */
            override: components["schemas"]["Override"] | null;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        ClaimInput: {
            /** @description Who does it, the holder first; left out, the caller alone. */
            crew?: string[];
            /**
             * Format: date-time
             * @description When it really was, by the clock of whoever reports it; left out, now.
             */
            at?: string;
            /**
             * Format: date-time
             * @description What that clock says as this is sent, anew with each attempt: by how far the clock is off `at` is corrected.
             */
            sentAt?: string;
        };
        CrewChangeInput: {
            member?: string;
            /**
             * Format: date-time
             * @description When it really was, by the clock of whoever reports it; left out, now.
             */
            at?: string;
            /**
             * Format: date-time
             * @description What that clock says as this is sent, anew with each attempt: by how far the clock is off `at` is corrected.
             */
            sentAt?: string;
        };
        LeftInput: {
            /** @description Builder-minutes at the nominal rate that are still to be done. */
            leftMinutes?: number;
            /**
             * Format: date-time
             * @description When it really was, by the clock of whoever reports it; left out, now.
             */
            at?: string;
            /**
             * Format: date-time
             * @description What that clock says as this is sent, anew with each attempt: by how far the clock is off `at` is corrected.
             */
            sentAt?: string;
        };
        StartInput: {
            /** @description The foreman’s: begun against what the service advises, and why. */
            override?: components["schemas"]["StartOverrideInput"];
            /**
             * Format: date-time
             * @description When it really was, by the clock of whoever reports it; left out, now.
             */
            at?: string;
            /**
             * Format: date-time
             * @description What that clock says as this is sent, anew with each attempt: by how far the clock is off `at` is corrected.
             */
            sentAt?: string;
        };
        ProgressInput: {
            /** @description Builder-minutes at the nominal rate that are still to be done. */
            leftMinutes: number;
            /**
             * Format: date-time
             * @description When it really was, by the clock of whoever reports it; left out, now.
             */
            at?: string;
            /**
             * Format: date-time
             * @description What that clock says as this is sent, anew with each attempt: by how far the clock is off `at` is corrected.
             */
            sentAt?: string;
        };
        SnagKinds: {
            items: components["schemas"]["SnagKindInWords"][];
        };
        SnagPage: {
            items: components["schemas"]["Snag"][];
            nextCursor: string | null;
        };
        Snag: {
            id: string;
            partId: string;
            partName: string;
            refitId: string;
            /** @description The done task whose work is at fault; null: not known yet. */
            taskId: string | null;
            /** @enum {string} */
            kind: "void" | "delamination" | "uncured" | "amine-blush" | "fish-eyes" | "pinholes" | "runs" | "print-through" | "out-of-fair" | "cracks" | "damage" | "wrong-size" | "misplaced";
            /** @description As a boatbuilder calls it. */
            kindName: string;
            words: string;
            /** @description How much of the part; null: all that the task covers. */
            areaM2: number | null;
            /** @enum {string} */
            state: "open" | "proposed" | "accepted" | "settled" | "dismissed";
            /** @description Why it was dismissed, or how it was settled. */
            note: string;
            shownToOwner: boolean;
            /** @description Null to owners. */
            raisedBy: string | null;
            /** Format: date-time */
            foundAt: string;
            photos: components["schemas"]["SnagPhoto"][];
            /** @description The latest rework proposed for it, to the foreman; null to others. */
            proposal: components["schemas"]["Proposal"] | null;
            /** @description Made for it; none to owners. */
            reworks: components["schemas"]["SnagRework"][];
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        SnagInput: {
            /** @enum {string} */
            kind: "void" | "delamination" | "uncured" | "amine-blush" | "fish-eyes" | "pinholes" | "runs" | "print-through" | "out-of-fair" | "cracks" | "damage" | "wrong-size" | "misplaced";
            /** @description What was found, where on the part, how it shows. */
            words: string;
            /**
             * @description The done task whose work is at fault; null: the service names the likeliest.
             * @default null
             */
            taskId?: string | null;
            /** @default null */
            areaM2?: number | null;
            /**
             * Format: date-time
             * @description When it really was, by the clock of whoever reports it; left out, now.
             */
            at?: string;
            /**
             * Format: date-time
             * @description What that clock says as this is sent, anew with each attempt: by how far the clock is off `at` is corrected.
             */
            sentAt?: string;
        };
        SnagPatch: {
            /** @enum {string} */
            kind?: "void" | "delamination" | "uncured" | "amine-blush" | "fish-eyes" | "pinholes" | "runs" | "print-through" | "out-of-fair" | "cracks" | "damage" | "wrong-size" | "misplaced";
            /** @description What was found, where on the part, how it shows. */
            words?: string;
            taskId?: string | null;
            areaM2?: number | null;
            shownToOwner?: boolean;
        };
        AcceptReworkInput: {
            /** @description The proposal that is agreed to, as it was read. */
            proposalId: string;
            /** @description Why it is to be done though the yard has no plan with it, and so no price. */
            override?: components["schemas"]["StartOverrideInput"];
        };
        SnagNoteInput: {
            /** @default  */
            note?: string;
        };
        SnagPhoto: {
            id: string;
            /** @enum {string} */
            mediaType: "image/jpeg" | "image/png" | "image/webp";
            bytes: number;
            width: number;
            height: number;
            /** @description Null to owners. */
            addedBy: string | null;
            /** Format: date-time */
            addedAt: string;
        };
        TaskHistory: {
            taskId: string;
            task: string;
            /** @description `dropped`: not to be done any more. */
            state: string;
            /** @description The task that it does again. */
            replaces: string | null;
            /** @description Tasks that do it again. */
            replacedBy: string[];
            /** @description As it was first published; null: it never was. */
            planned: components["schemas"]["ToldTask"] | null;
            /** @description Each later plan that told it otherwise, in order. */
            replanned: components["schemas"]["ToldTask"][];
            actual: components["schemas"]["ActualWork"];
        };
        AlarmPage: {
            items: components["schemas"]["Alarm"][];
            nextCursor: string | null;
        };
        AlarmShown: {
            /** @description Of one person’s devices the first is told true: it alone shows the alarm. */
            first: boolean;
            alarm: components["schemas"]["Alarm"];
        };
        Alarm: {
            id: string;
            /** @enum {string} */
            kind: "opens" | "closes" | "missed" | "too-cold" | "pot-life" | "lapses" | "overrun" | "unbegun";
            /** @description What it is about. */
            taskId: string | null;
            /** @description Times are the yard’s. */
            words: string;
            /** Format: date-time */
            rungAt: string;
            /** Format: date-time */
            dueAt: string;
            /** @description To the caller. */
            shownAt: string | null;
            /** @description By the caller. */
            acknowledgedAt: string | null;
            audience: components["schemas"]["AlarmListener"][];
        };
        PushKey: {
            /** @description The `applicationServerKey` to subscribe with: base64url, an uncompressed point. */
            publicKey: string;
        };
        PushSubscriptionList: {
            items: components["schemas"]["PushSubscription"][];
        };
        PushSubscriptionInput: {
            /** @description Secret: whoever has it can send. */
            endpoint: string;
            expirationTime?: number | null;
            keys: components["schemas"]["PushSubscriptionKeysInput"];
        };
        PushSubscription: {
            id: string;
            /** @description The host that its notifications go through. */
            service: string;
            /** @description What the browser said of itself. */
            agent: string;
            /** Format: date-time */
            createdAt: string;
            lastSentAt: string | null;
        };
        ChangePage: {
            items: components["schemas"]["Change"][];
            nextCursor: string | null;
        };
        Change: {
            id: string;
            boatId: string;
            boat: string;
            refitId: string;
            refit: string;
            wanted: components["schemas"]["ChangeWanted"];
            words: string;
            /** @enum {string} */
            state: "asked" | "priced" | "accepted" | "declined" | "withdrawn";
            /**
             * @description Who says yes: the owner of the boat, or, where none has an account, the foreman.
             * @enum {string}
             */
            decides: "owner" | "foreman";
            raisedBy: components["schemas"]["ChangeParty"];
            decidedBy: components["schemas"]["ChangeParty"] | null;
            decidedAt: string | null;
            note: string;
            /** @description What it would do and cost, as told last. */
            proposal: components["schemas"]["Proposal"] | null;
            /** Format: date-time */
            createdAt: string;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        ChangeInput: {
            change: components["schemas"]["ChangeOfInput"];
            /**
             * @description Why, for whoever decides.
             * @default
             */
            words?: string;
        };
        AcceptChangeInput: {
            proposalId: string;
            /** @default  */
            note?: string;
        };
        RefuseChangeInput: {
            /** @default  */
            note?: string;
        };
        ReportsInput: {
            /**
             * Format: date-time
             * @description What that clock says as this is sent, anew with each attempt: by how far the clock is off `at` is corrected.
             */
            sentAt?: string;
            reports: components["schemas"]["NewReportInput"][];
        };
        TakenReports: {
            /** @description One for each that was sent, in the order sent. */
            items: components["schemas"]["TakenReport"][];
        };
        ReportPage: {
            items: components["schemas"]["Report"][];
            nextCursor: string | null;
        };
        Report: {
            id: string;
            key: string;
            member: components["schemas"]["Reporter"];
            command: components["schemas"]["ReportCommand"];
            /**
             * Format: date-time
             * @description As the phone said.
             */
            phoneAt: string;
            phoneSentAt: string | null;
            /** Format: date-time */
            receivedAt: string;
            /**
             * Format: date-time
             * @description When it was, by the service’s clock.
             */
            at: string;
            /** @enum {string} */
            outcome: "done" | "held" | "dismissed";
            /** @description Why it is held; empty of what is done. */
            reasons: components["schemas"]["ReportReason"][];
            /** @description As it was when the report had been carried out. */
            claim: components["schemas"]["Claim"] | null;
            settledById: string | null;
            settledAt: string | null;
            /** @description Of the foreman who settled it. */
            note: string;
            /** @description Counts the changes of the record; the ETag in REST. */
            revision: number;
        };
        SettleReportInput: {
            /** @enum {string} */
            as: "done" | "dismissed";
            /**
             * Format: date-time
             * @description When it really was, by the clock of whoever reports it; left out, now.
             */
            at?: string;
            /**
             * Format: date-time
             * @description What that clock says as this is sent, anew with each attempt: by how far the clock is off `at` is corrected.
             */
            sentAt?: string;
            /** @description Of a start that the service advises against. */
            override?: components["schemas"]["StartOverrideInput"];
            /** @default  */
            note?: string;
        };
        MyBoats: {
            items: components["schemas"]["MyBoat"][];
        };
        MyBoat: {
            id: string;
            name: string;
            /** Format: date */
            weekStart: string;
            refits: components["schemas"]["OwnerRefit"][];
            /** @description The spaces that its work needs, and when they are taken this week as planned. */
            spaces: components["schemas"]["OwnerSpace"][];
        };
        MyBoatHistory: {
            boatId: string;
            /** Format: date-time */
            since: string;
            finishes: components["schemas"]["OwnerFinishMoved"][];
            /** @description The newest first; of plans one a day. */
            items: components["schemas"]["OwnerHistoryItem"][];
        };
        CalendarPage: {
            items: components["schemas"]["Calendar"][];
            nextCursor: string | null;
        };
        CalendarInput: {
            /**
             * @description builder: a person’s work, with alarms at its windows; owner: milestones of their boats; space: what takes it.
             * @enum {string}
             */
            kind: "builder" | "owner" | "space";
            /**
             * @description Of kind space: which.
             * @default null
             */
            spaceId?: string | null;
            /**
             * @description Null: for yourself; the foreman also for others.
             * @default null
             */
            personId?: string | null;
            /**
             * @description As clients show it; null: made from what it is of.
             * @default null
             */
            name?: string | null;
        };
        NewCalendar: {
            id: string;
            /** @description Whose it is: it says what they may read, and ends when they come in no more. */
            personId: string;
            person: string;
            /**
             * @description builder: a person’s work, with alarms at its windows; owner: milestones of their boats; space: what takes it.
             * @enum {string}
             */
            kind: "builder" | "owner" | "space";
            /** @description Of a space’s. */
            spaceId: string | null;
            name: string;
            /** @enum {string} */
            state: "open" | "revoked";
            /** Format: date-time */
            createdAt: string;
            /** @description To the minute; null: never read. */
            lastReadAt: string | null;
            revokedAt: string | null;
            /** @description What to subscribe to. Whoever has it reads the calendar, so it is shown only here. Null where the command is repeated. */
            url: string | null;
        };
        Productivity: {
            /** @description Null: nothing to go by. */
            yard: components["schemas"]["YardProductivity"] | null;
            steps: components["schemas"]["StepProductivity"][];
            people: components["schemas"]["PersonProductivity"][];
            spaces: components["schemas"]["SpaceProductivity"][];
            /** @description So far from the others that a clock was forgotten; counted nowhere. */
            setAside: components["schemas"]["OddTask"][];
            leftOut: components["schemas"]["TasksLeftOut"][];
            method: string;
        };
        ProductivityInput: {
            change: components["schemas"]["ProductivityChangeInput"];
            /** @description How many times as long as planned: the one that was shown, or another one. */
            factor: number;
            /** @description As it was shown. */
            revision: number;
            /**
             * @description Of a step: tasks that nobody has begun are sized anew as well.
             * @default true
             */
            alsoWaiting?: boolean;
        };
        ProductivityApplied: {
            words: string;
            /** @description Waiting tasks that have another length now. */
            tasks: number;
            /** @description Of the record as it is now. */
            revision: number;
        };
        AlarmsQuery: {
            /** @default 50 */
            first?: number;
            after?: string;
            /** @description The foreman’s: everybody’s, `?all`. */
            all?: string;
        };
        PageQuery: {
            /** @default 50 */
            first?: number;
            after?: string;
        };
        AuditQuery: {
            /** @default 50 */
            first?: number;
            after?: string;
            /**
             * @description Of which kind of record.
             * @enum {string}
             */
            record?: "yard" | "skill" | "member" | "member-skill" | "weekly-shift" | "shift-exception" | "exception-shift" | "invitation" | "program-key" | "space" | "set-point" | "dust-reach" | "outdoor" | "tool" | "stock" | "barrier" | "barrier-block" | "slot-list" | "delivery" | "material" | "material-version" | "cure-table" | "fabric" | "reading" | "observation" | "procedure" | "boat" | "refit" | "part" | "part-layer" | "job" | "job-after" | "job-join" | "job-wait" | "task" | "task-crew" | "task-tool" | "task-link" | "task-choice" | "task-branch" | "branch-task" | "branch-link" | "claim" | "claim-member" | "plan-run" | "plan" | "published-plan" | "publishing" | "candidate" | "snag" | "snag-photo" | "change-order" | "proposal" | "rework" | "calendar-link";
            /** @description Of the record with this id, or with it as a part of its key. */
            key?: string;
            /** @description By whom: a person’s id. */
            member?: string;
            /** @enum {string} */
            change?: "insert" | "update" | "delete";
            /**
             * Format: date-time
             * @description Then or later.
             */
            from?: string;
            /**
             * Format: date-time
             * @description Before then.
             */
            to?: string;
        };
        AuditFilterInput: {
            /**
             * @description Of which kind of record.
             * @enum {string}
             */
            record?: "yard" | "skill" | "member" | "member-skill" | "weekly-shift" | "shift-exception" | "exception-shift" | "invitation" | "program-key" | "space" | "set-point" | "dust-reach" | "outdoor" | "tool" | "stock" | "barrier" | "barrier-block" | "slot-list" | "delivery" | "material" | "material-version" | "cure-table" | "fabric" | "reading" | "observation" | "procedure" | "boat" | "refit" | "part" | "part-layer" | "job" | "job-after" | "job-join" | "job-wait" | "task" | "task-crew" | "task-tool" | "task-link" | "task-choice" | "task-branch" | "branch-task" | "branch-link" | "claim" | "claim-member" | "plan-run" | "plan" | "published-plan" | "publishing" | "candidate" | "snag" | "snag-photo" | "change-order" | "proposal" | "rework" | "calendar-link";
            /** @description Of the record with this id, or with it as a part of its key. */
            key?: string;
            /** @description By whom: a person’s id. */
            member?: string;
            /** @enum {string} */
            change?: "insert" | "update" | "delete";
            /**
             * Format: date-time
             * @description Then or later.
             */
            from?: string;
            /**
             * Format: date-time
             * @description Before then.
             */
            to?: string;
        };
        DustWayInput: {
            from: string;
            to: string;
        };
        WaitsForInput: {
            delivery: string;
            /** @default null */
            step?: string | null;
        };
        WordInput: {
            step: string;
            /** Format: date-time */
            expected: string;
        };
        LayerInput: {
            /** @enum {string} */
            base: "polyester" | "vinyl-ester" | "epoxy" | "wood" | "metal" | "foam" | "paint";
            /** @default null */
            material?: string | null;
            /**
             * @default bare
             * @enum {string}
             */
            surface?: "inhibited" | "sealed" | "peel-ply" | "bare";
            /** @default false */
            waxed?: boolean;
            /** @default null */
            laidAt?: string | null;
            /** @default null */
            mm?: number | null;
        };
        DoneToSurfaceInput: {
            /** @enum {string} */
            kind: "dewax" | "wash" | "abrade" | "extract" | "wipe" | "peel";
            minutesAgo: number;
            grit: number | null;
        };
        SurfaceInput: {
            /** @enum {string} */
            substrate: "polyester" | "vinyl-ester" | "epoxy" | "wood" | "metal" | "foam" | "paint";
            /** @enum {string} */
            kind: "inhibited" | "sealed" | "peel-ply" | "bare";
            /** @enum {string} */
            stage: "wet" | "open" | "between" | "hard" | "cured";
            /** @default false */
            waxed?: boolean;
            /**
             * @description An amine film may be on it.
             * @default false
             */
            blush?: boolean;
            /**
             * @description Since it was exposed, in order.
             * @default []
             */
            done?: components["schemas"]["DoneToSurfaceInput"][];
            /**
             * @description Null: laid long ago.
             * @default null
             */
            ageMinutes?: number | null;
        };
        NextCoatInput: {
            /** @enum {string} */
            base: "polyester" | "vinyl-ester" | "epoxy" | "paint";
            /** @enum {string} */
            use: "laminating" | "gel-coat" | "finish" | "glue" | "fairing" | "paint";
            /**
             * @default structural
             * @enum {string}
             */
            bonding?: "structural" | "cosmetic";
            /**
             * @description Of the fabric that touches the surface.
             * @default null
             */
            binder?: ("none" | "powder" | "styrene-soluble") | null;
        };
        PartSurfaceQuery: {
            /**
             * Format: date-time
             * @description Left out: now.
             */
            at?: string;
            /** @description How it would bond is said besides. */
            material?: string;
            /** @enum {string} */
            bonding?: "structural" | "cosmetic";
        };
        CandidatesQuery: {
            /** @default 50 */
            first?: number;
            after?: string;
            /** @enum {string} */
            state?: "open" | "published" | "discarded" | "superseded";
        };
        DifferenceQuery: {
            /** @description The plan it is held against; unless told the published one. */
            from?: string;
        };
        /** @description With its jobs: their procedures say what is to be done. */
        ChangeOfPartInput: components["schemas"]["PartInput"];
        ChangeOfInput: {
            /** @constant */
            kind: "size";
            partId: string;
            /** @description Square metres; left out, as it is. */
            areaM2?: number;
            /** @description Metres of edge; left out, as it is. */
            edgeM?: number;
            /** @description Metres of joint; left out, as it is. */
            jointM?: number;
        } | {
            /** @constant */
            kind: "add-part";
            refitId: string;
            part: components["schemas"]["ChangeOfPartInput"];
        } | {
            /** @constant */
            kind: "drop-part";
            partId: string;
        };
        ChangesQuery: {
            /** @default 50 */
            first?: number;
            after?: string;
            /** @enum {string} */
            state?: "asked" | "priced" | "accepted" | "declined" | "withdrawn";
        };
        ClimateQuery: {
            /** Format: date-time */
            from: string;
            /**
             * Format: date-time
             * @description At most 31 days later.
             */
            until: string;
            /** @description Whether it may be applied then is said besides. */
            material?: string;
        };
        FilmQuery: {
            /** @description Where it is; left out: where it is always `celsius`. */
            space?: string;
            /** @description In the place of a space. */
            celsius?: number;
            /**
             * Format: date-time
             * @description When the first of it is laid.
             */
            laidFrom: string;
            /**
             * Format: date-time
             * @description When the last of it is; left out: at once.
             */
            laidUntil?: string;
        };
        LatestStartQuery: {
            space: string;
            /** @enum {string} */
            milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
            /**
             * Format: date-time
             * @description When it has to be reached.
             */
            by: string;
            /**
             * @description How long it takes to lay.
             * @default 0
             */
            minutes?: number;
        };
        CureRowInput: {
            celsius: number;
            minutes: number;
        };
        RateConstantInput: {
            a: number;
            e: number;
        };
        RateModelInput: {
            k1: components["schemas"]["RateConstantInput"];
            k2: components["schemas"]["RateConstantInput"];
            m: number;
            n: number;
            initial: number;
            reached: number;
        };
        CureTableInput: {
            /** @enum {string} */
            milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
            rows: components["schemas"]["CureRowInput"][];
            /** @default null */
            conversion?: components["schemas"]["RateModelInput"] | null;
            source: string;
            /**
             * @default sheet
             * @enum {string}
             */
            trust?: "sheet" | "measured" | "practice";
            /** @default null */
            spread?: number | null;
        };
        SheetFigureInput: {
            value: number;
            source: string;
            /**
             * @default sheet
             * @enum {string}
             */
            trust?: "sheet" | "measured" | "practice";
            /** @default null */
            spread?: number | null;
        };
        PercentRangeInput: {
            low: number;
            high: number;
        };
        HardenerInput: {
            /** @constant */
            kind: "percent";
            /** @default null */
            usual?: components["schemas"]["SheetFigureInput"] | null;
            /** @default null */
            used?: number | null;
            /** @default null */
            warn?: components["schemas"]["PercentRangeInput"] | null;
            /** @default null */
            block?: components["schemas"]["PercentRangeInput"] | null;
            /** @default null */
            effect?: components["schemas"]["SheetFigureInput"] | null;
        } | {
            /** @constant */
            kind: "ratio";
            per100: components["schemas"]["SheetFigureInput"];
        };
        MyBoatHistoryQuery: {
            /**
             * Format: date-time
             * @description At most 92 days ago; unless told a week ago.
             */
            since?: string;
        };
        ObservationsQuery: {
            /** @default 50 */
            first?: number;
            after?: string;
            material?: string;
        };
        ObservationsFilterInput: {
            material?: string;
        };
        PasskeyCredentialResponseInput: {
            clientDataJSON: string;
            attestationObject: string;
            /** @default [] */
            transports?: string[];
        };
        PasskeyCredentialInput: {
            id: string;
            rawId: string;
            /** @constant */
            type: "public-key";
            response: components["schemas"]["PasskeyCredentialResponseInput"];
        };
        PasskeySignInCredentialResponseInput: {
            clientDataJSON: string;
            authenticatorData: string;
            signature: string;
            userHandle: string;
        };
        PasskeySignInCredentialInput: {
            id: string;
            rawId: string;
            /** @constant */
            type: "public-key";
            response: components["schemas"]["PasskeySignInCredentialResponseInput"];
        };
        AbilityInput: {
            skill: string;
            level: number;
            /** @default 100 */
            speed?: number;
        };
        BreakInput: {
            from: string;
            to: string;
        };
        WeeklyShiftInput: {
            from: string;
            to: string;
            /** @default [] */
            breaks?: components["schemas"]["BreakInput"][];
            /** @description ISO: 1 Monday to 7 Sunday */
            weekday: number;
        };
        ShiftInput: {
            from: string;
            to: string;
            /** @default [] */
            breaks?: components["schemas"]["BreakInput"][];
        };
        ShiftExceptionInput: {
            /** Format: date */
            date: string;
            /** @default [] */
            shifts?: components["schemas"]["ShiftInput"][];
            /** @default  */
            reason?: string;
        };
        OvertimeInput: {
            /** @description ISO: 1 Monday to 7 Sunday */
            weekday: number;
            from: string;
            to: string;
        };
        WeekQuery: {
            /**
             * @default builder
             * @enum {string}
             */
            by?: "builder" | "space" | "boat";
            /**
             * Format: date
             * @description The first of seven days; unless told the plan’s first Monday.
             */
            from?: string;
        };
        WhyNotEarlierQuery: {
            /**
             * Format: date-time
             * @description The start asked about; unless told, or where it is later, a minute before the planned one.
             */
            at?: string;
        };
        WhatShortensQuery: {
            /** @description The refit asked about; unless told all of them, broken promises first. */
            refit?: string;
        };
        MixSheetsQuery: {
            /**
             * Format: date
             * @description By the yard’s date; left out: all of the plan.
             */
            day?: string;
        };
        PictureQuery: {
            /**
             * Format: date
             * @description The first day; unless told the Monday of now, or of the plan where it is not now.
             */
            from?: string;
            /** @default 7 */
            days?: number;
        };
        EffortInput: {
            /** @default 0 */
            fixed?: number;
            /** @default 0 */
            perM2?: number;
            /** @default 0 */
            perEdgeM?: number;
            /** @default 0 */
            perJointM?: number;
            source: string;
        };
        QuantityPliesInput: {
            fabric: string;
            layers?: number | null;
            widthMm?: number | null;
        };
        QuantityInput: {
            /** @constant */
            kind: "laminate";
            plies: {
                fabric: string;
                layers: number;
            }[];
            /** @default 0 */
            wastePercent?: number;
        } | {
            /** @constant */
            kind: "tabbing";
            plies: {
                fabric: string;
                widthMm: number;
            }[];
            /** @default 0 */
            wastePercent?: number;
        } | {
            /** @constant */
            kind: "coat";
            /** @default null */
            gramsPerM2?: number | null;
            /** @default 1 */
            coats?: number;
            /** @default 0 */
            wastePercent?: number;
        } | {
            /** @constant */
            kind: "fill";
            mm: number;
            /** @default 0 */
            wastePercent?: number;
        } | {
            /** @constant */
            kind: "fillet";
            radiusMm: number;
            /** @default 1 */
            sides?: number;
            /** @default 0 */
            wastePercent?: number;
        } | {
            /** @constant */
            kind: "glue-line";
            widthMm: number;
            /** @default null */
            gramsPerM2?: number | null;
            /** @default 0 */
            wastePercent?: number;
        };
        PreparationInput: {
            /** @enum {string} */
            kind: "dewax" | "wash" | "abrade" | "extract" | "wipe" | "peel";
            /** @default null */
            grit?: number | null;
            /** @default null */
            mm?: number | null;
            /** @default 1 */
            passes?: number;
        };
        ToolNeedInput: {
            tool: string;
            /** @default 1 */
            count?: number;
        };
        MoveInput: {
            /** @constant */
            kind: "turn";
        } | {
            /** @constant */
            kind: "space";
            space: string;
        } | {
            /** @constant */
            kind: "destination";
        };
        HoldEndInput: {
            /** @constant */
            kind: "after";
            minutes: number;
        } | {
            /** @constant */
            kind: "milestone";
            /** @enum {string} */
            milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
        } | {
            /** @constant */
            kind: "step";
            step: string;
            /** @enum {string} */
            anchor: "start" | "finish";
        };
        HoldInput: {
            id: string;
            tool: string;
            /** @default 1 */
            count?: number;
            until: components["schemas"]["HoldEndInput"][];
        };
        ConsumptionInput: {
            stock: string;
            /** @default 0 */
            fixed?: number;
            /** @default 0 */
            perM2?: number;
            /** @default 0 */
            perEdgeM?: number;
            /** @default 0 */
            perJointM?: number;
        };
        BarrierActInput: {
            barrier: string;
            closes: boolean;
        };
        MomentInput: {
            /** @constant */
            kind: "after";
            minutes: number;
        } | {
            /** @constant */
            kind: "milestone";
            /** @enum {string} */
            milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
        };
        StepInput: {
            id: string;
            name: string;
            effort: components["schemas"]["EffortInput"];
            skill: string | null;
            /** @default 1 */
            minLevel?: number;
            crewMin: number;
            crewMax: number;
            /** @default 0 */
            floorMinutes?: number;
            /** @enum {string} */
            air: "clean" | "dusty" | "wet";
            /** @default null */
            material?: string | null;
            /** @default null */
            quantity?: components["schemas"]["QuantityInput"] | null;
            /** @default false */
            oneBatch?: boolean;
            /** @default [] */
            prepares?: components["schemas"]["PreparationInput"][];
            /**
             * @default structural
             * @enum {string}
             */
            bonding?: "structural" | "cosmetic";
            /** @default null */
            space?: string | null;
            /** @default [] */
            tools?: components["schemas"]["ToolNeedInput"][];
            splittable: boolean;
            /**
             * @default observed
             * @enum {string}
             */
            breaks?: "relieved" | "observed";
            /** @default 0 */
            cleanDownMinutes?: number;
            /** @default null */
            move?: components["schemas"]["MoveInput"] | null;
            /** @default true */
            onPart?: boolean;
            /** @default false */
            joins?: boolean;
            /** @default [] */
            holds?: components["schemas"]["HoldInput"][];
            /** @default [] */
            consumes?: components["schemas"]["ConsumptionInput"][];
            /** @default null */
            barrier?: components["schemas"]["BarrierActInput"] | null;
            /** @default null */
            slots?: string | null;
            /** @default 0 */
            price?: number;
            /** @default null */
            sensitiveUntil?: components["schemas"]["MomentInput"] | null;
            /** @default [] */
            coveredBy?: string[];
        };
        LinkInput: {
            id: string;
            from: string;
            to: string;
            opens: components["schemas"]["MomentInput"] | null;
            /** @default null */
            closes?: components["schemas"]["MomentInput"] | null;
            /**
             * @default unknown
             * @enum {string}
             */
            sweep?: "unknown" | "same";
        };
        BranchInput: {
            id: string;
            name: string;
            steps: string[];
            links: string[];
        };
        ChoiceInput: {
            id: string;
            name: string;
            branches: components["schemas"]["BranchInput"][];
        };
        ProcedureDraftInput: {
            name: string;
            steps: components["schemas"]["StepInput"][];
            links: components["schemas"]["LinkInput"][];
            /** @default [] */
            choices?: components["schemas"]["ChoiceInput"][];
        };
        ProductivityChangeInput: {
            /** @constant */
            kind: "step";
            procedureId: string;
            stepId: string;
        } | {
            /** @constant */
            kind: "person";
            personId: string;
            skillId: string;
        } | {
            /** @constant */
            kind: "space";
            spaceId: string;
        };
        PushSubscriptionKeysInput: {
            p256dh: string;
            auth: string;
        };
        NewReadingInput: {
            /** @description Left out: the service gives it one. */
            id?: string;
            space: string;
            /**
             * @default air
             * @enum {string}
             */
            of?: "air" | "surface";
            /** Format: date-time */
            at: string;
            /** @default 0 */
            minutes?: number;
            celsius: number;
            /** @default null */
            humidity?: number | null;
            /** @default  */
            note?: string;
        };
        ReadingsQuery: {
            /** @default 50 */
            first?: number;
            after?: string;
            space?: string;
            /**
             * Format: date-time
             * @description Taken then or later.
             */
            from?: string;
            /**
             * Format: date-time
             * @description Taken before.
             */
            until?: string;
        };
        ReadingsFilterInput: {
            space?: string;
            /**
             * Format: date-time
             * @description Taken then or later.
             */
            from?: string;
            /**
             * Format: date-time
             * @description Taken before.
             */
            until?: string;
        };
        StartOverrideInput: {
            reason: string;
        };
        ClaimsQuery: {
            /** @default 50 */
            first?: number;
            after?: string;
            /** @description Only those whose crew the caller is in: `?mine`. */
            mine?: string;
            /** @enum {string} */
            status?: "open" | "working" | "paused" | "finished" | "released" | "lapsed";
        };
        ReadyQuery: {
            /** @enum {string} */
            whose?: "mine" | "all";
            /**
             * @description So many at most of what is ready, and of what waits.
             * @default 200
             */
            first?: number;
            /** @description The nextCursor of before: what waits beyond it. */
            after?: string;
        };
        ReportCommandInput: {
            /** @constant */
            kind: "claim";
            taskId: string;
            /** @description Who does it, the holder first; left out, the caller alone. */
            crew?: string[];
        } | {
            /** @constant */
            kind: "join";
            taskId: string;
            member?: string;
        } | {
            /** @constant */
            kind: "leave";
            taskId: string;
            member?: string;
        } | {
            /** @constant */
            kind: "release";
            taskId: string;
            /** @description Builder-minutes at the nominal rate that are still to be done. */
            leftMinutes?: number;
        } | {
            /** @constant */
            kind: "start";
            taskId: string;
            override?: components["schemas"]["StartOverrideInput"];
        } | {
            /** @constant */
            kind: "pause";
            taskId: string;
            /** @description Builder-minutes at the nominal rate that are still to be done. */
            leftMinutes?: number;
        } | {
            /** @constant */
            kind: "resume";
            taskId: string;
        } | {
            /** @constant */
            kind: "progress";
            taskId: string;
            /** @description Builder-minutes at the nominal rate that are still to be done. */
            leftMinutes: number;
        } | {
            /** @constant */
            kind: "finish";
            taskId: string;
        } | {
            /** @constant */
            kind: "abandon";
            taskId: string;
            reason: string;
        } | {
            /** @constant */
            kind: "fail-batch";
            taskId: string;
            reason: string;
        } | {
            /** @constant */
            kind: "undo";
            taskId: string;
        } | {
            space: string;
            /**
             * @default air
             * @enum {string}
             */
            of?: "air" | "surface";
            celsius: number;
            /** @default null */
            humidity?: number | null;
            /** @default  */
            note?: string;
            /** @constant */
            kind: "reading";
        } | {
            /** @description The task that has laid the film. */
            taskId: string;
            /**
             * @description Wet, tacky, clogs the paper, or sands dry.
             * @enum {string}
             */
            found: "still-wet" | "tacky" | "clogs" | "dry";
            /** @default  */
            note?: string;
            /** @constant */
            kind: "tack-test";
        };
        NewReportInput: {
            key: string;
            /**
             * Format: date-time
             * @description When it was, by the phone’s clock.
             */
            at: string;
            command: components["schemas"]["ReportCommandInput"];
        };
        ReportsQuery: {
            /** @default 50 */
            first?: number;
            after?: string;
            /** @enum {string} */
            outcome?: "done" | "held" | "dismissed";
            /** @description Whose phone told it. */
            member?: string;
        };
        ReportsFilterInput: {
            /** @enum {string} */
            outcome?: "done" | "held" | "dismissed";
            /** @description Whose phone told it. */
            member?: string;
        };
        SlotInput: {
            /** Format: date-time */
            from: string;
            /** Format: date-time */
            to: string;
            /** @default 0 */
            price?: number;
            /** @default 0 */
            noticeHours?: number;
            /** @default false */
            booked?: boolean;
        };
        SnagsQuery: {
            /** @default 50 */
            first?: number;
            after?: string;
            partId?: string;
            refitId?: string;
            /** @enum {string} */
            state?: "open" | "proposed" | "accepted" | "settled" | "dismissed";
        };
        SnagsFilterInput: {
            partId?: string;
            refitId?: string;
            /** @enum {string} */
            state?: "open" | "proposed" | "accepted" | "settled" | "dismissed";
        };
        PhotoQuery: {
            /** @enum {string} */
            size?: "whole" | "small";
        };
        SetPointInput: {
            weekdays: number[];
            from: string;
            celsius: number;
        };
        ClimateInput: {
            /** @constant */
            kind: "heated";
            setPoints: components["schemas"]["SetPointInput"][];
            /** @default 0 */
            lagHours?: number;
        } | {
            /** @constant */
            kind: "outdoors";
            lagHours: number;
            /** @default 0 */
            warmerBy?: number;
        };
        SpaceHumidityInput: {
            /** @constant */
            kind: "outdoors";
            /** @default 0 */
            addsHPa?: number;
        } | {
            /** @constant */
            kind: "held";
            percent: number;
        };
        SkinInput: {
            outdoorShare: number;
            /** @default 0 */
            lagHours?: number;
        };
        ClimateChangeInput: {
            id: string;
            name: string;
            /** @enum {string} */
            kind: "heater" | "tent" | "dehumidifier";
            /** Format: date-time */
            from: string;
            /** Format: date-time */
            to: string;
            /** @default null */
            celsius?: number | null;
            /** @default null */
            lagHours?: number | null;
            /** @default null */
            warmerBy?: number | null;
            /** @default null */
            percent?: number | null;
            /** @default false */
            unvented?: boolean;
            /** @default 0 */
            watts?: number;
            /** @default 0 */
            costPerDay?: number;
        };
        AbsenceInput: {
            /** Format: date-time */
            from: string;
            /** Format: date-time */
            to: string;
            count: number;
        };
        HoursInput: {
            /** @description ISO: 1 Monday to 7 Sunday */
            weekday: number;
            from: string;
            to: string;
        };
        ConsumableInput: {
            id: string;
            name: string;
            unit: string;
            /** @enum {string} */
            of: "dewax" | "wash" | "abrade" | "extract" | "wipe" | "peel";
            perM2: number;
            source: string;
        };
        YardFileOutdoorInput: {
            /** Format: date-time */
            from: string;
            celsius: number[];
            /** @default [] */
            humidity?: number[];
            source: string;
        };
        ReadingInput: {
            id: string;
            space: string;
            /**
             * @default air
             * @enum {string}
             */
            of?: "air" | "surface";
            /** Format: date-time */
            at: string;
            /** @default 0 */
            minutes?: number;
            celsius: number;
            /** @default null */
            humidity?: number | null;
            /** @default  */
            note?: string;
        };
        ObservationInput: {
            id: string;
            material: string;
            /** @enum {string} */
            milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
            /** @enum {string} */
            found: "just-now" | "already" | "not-yet";
            space: string;
            /** Format: date-time */
            laidAt: string;
            /** Format: date-time */
            at: string;
            /** @default null */
            grams?: number | null;
            /** @default null */
            hardenerPercent?: number | null;
            /** @default  */
            note?: string;
        };
        ProcedureInput: {
            id: string;
            version: number;
            name: string;
            steps: components["schemas"]["StepInput"][];
            links: components["schemas"]["LinkInput"][];
            /** @default [] */
            choices?: components["schemas"]["ChoiceInput"][];
        };
        /** @description The session goes on under this token; the old one is void. */
        TotpConfirmedSession: components["schemas"]["Session"];
        Calendar: {
            id: string;
            /** @description Whose it is: it says what they may read, and ends when they come in no more. */
            personId: string;
            person: string;
            /**
             * @description builder: a person’s work, with alarms at its windows; owner: milestones of their boats; space: what takes it.
             * @enum {string}
             */
            kind: "builder" | "owner" | "space";
            /** @description Of a space’s. */
            spaceId: string | null;
            name: string;
            /** @enum {string} */
            state: "open" | "revoked";
            /** Format: date-time */
            createdAt: string;
            /** @description To the minute; null: never read. */
            lastReadAt: string | null;
            revokedAt: string | null;
        };
        ProgramKey: {
            id: string;
            /** @description Whose it is: it does what they may, as far as its scopes reach. */
            personId: string;
            person: string;
            name: string;
            scopes: ("read" | "work" | "manage")[];
            /** @enum {string} */
            state: "open" | "expired" | "revoked";
            /** Format: date-time */
            createdAt: string;
            /** Format: date-time */
            expiresAt: string;
            /** @description To the minute; null: never used. */
            lastUsedAt: string | null;
            revokedAt: string | null;
        };
        Membership: {
            yardId: string;
            yard: string;
            memberId: string;
            roles: ("foreman" | "builder" | "owner")[];
            /** @description The yard lets in only sessions that showed a second factor. */
            secondFactorRequired: boolean;
        };
        YardEvent: {
            /** @description Ascending in the yard; follow on after it. */
            id: string;
            /** @description What happened, `task-claimed` say. */
            kind: string;
            /** @description Which kind of record it is about. */
            subject: string;
            subjectId: string;
            /** Format: date-time */
            at: string;
            /** @description Null where the service itself did it. */
            byMemberId: string | null;
            /** @description More about it, JSON. */
            payload: string;
        };
        AlarmListener: {
            id: string;
            name: string;
            shownAt: string | null;
            acknowledgedAt: string | null;
        };
        RungAlarm: {
            /** @description Follow on after it. */
            eventId: string;
            id: string;
            /** @enum {string} */
            kind: "opens" | "closes" | "missed" | "too-cold" | "pot-life" | "lapses" | "overrun" | "unbegun";
            /** @description What it is about. */
            taskId: string | null;
            /** @description Times are the yard’s. */
            words: string;
            /** Format: date-time */
            rungAt: string;
        };
        AuditField: {
            name: string;
            /** @description JSON; null where there was no such record before. */
            before: string | null;
            /** @description JSON; null where there is no such record any more. */
            after: string | null;
        };
        AuditEntry: {
            /** @description Counts the changes of the yard, from 1 without a gap. */
            id: string;
            /**
             * Format: date-time
             * @description When it was committed.
             */
            at: string;
            /** @description Null where nobody signed in did it: the worker, or somebody at the server. */
            byMemberId: string | null;
            /** @description What that person is called now. */
            byName: string | null;
            /** @enum {string} */
            change: "insert" | "update" | "delete";
            /** @enum {string} */
            record: "yard" | "skill" | "member" | "member-skill" | "weekly-shift" | "shift-exception" | "exception-shift" | "invitation" | "program-key" | "space" | "set-point" | "dust-reach" | "outdoor" | "tool" | "stock" | "barrier" | "barrier-block" | "slot-list" | "delivery" | "material" | "material-version" | "cure-table" | "fabric" | "reading" | "observation" | "procedure" | "boat" | "refit" | "part" | "part-layer" | "job" | "job-after" | "job-join" | "job-wait" | "task" | "task-crew" | "task-tool" | "task-link" | "task-choice" | "task-branch" | "branch-task" | "branch-link" | "claim" | "claim-member" | "plan-run" | "plan" | "published-plan" | "publishing" | "candidate" | "snag" | "snag-photo" | "change-order" | "proposal" | "rework" | "calendar-link";
            /** @description Which record: JSON, the fields that tell it from all others. */
            key: string;
            /** @description What differs; all fields of a record that came or went. Secrets are hidden. */
            fields: components["schemas"]["AuditField"][];
            /** @description Hex; over this change and all before it. */
            hash: string;
        };
        DustWay: {
            from: string;
            to: string;
        };
        WaitsFor: {
            delivery: string;
            /** @default null */
            step: string | null;
        };
        Word: {
            step: string;
            /** Format: date-time */
            expected: string;
        };
        Layer: {
            /** @enum {string} */
            base: "polyester" | "vinyl-ester" | "epoxy" | "wood" | "metal" | "foam" | "paint";
            /** @default null */
            material: string | null;
            /**
             * @default bare
             * @enum {string}
             */
            surface: "inhibited" | "sealed" | "peel-ply" | "bare";
            /** @default false */
            waxed: boolean;
            /** @default null */
            laidAt: string | null;
            /** @default null */
            mm: number | null;
        };
        PreparationStep: {
            /** @enum {string} */
            kind: "dewax" | "wash" | "abrade" | "extract" | "wipe" | "peel";
            words: string;
            grit: number | null;
            /** @description After it, until it has flashed off. */
            waitMinutes: number;
            /** @description Null: it never is. */
            staleMinutes: number | null;
        };
        BondCondition: {
            substrate: ("polyester" | "vinyl-ester" | "epoxy" | "wood" | "metal" | "foam" | "paint")[] | null;
            kind: ("inhibited" | "sealed" | "peel-ply" | "bare")[] | null;
            stage: ("wet" | "open" | "between" | "hard" | "cured")[] | null;
            waxed: boolean | null;
            /** @description Minutes since it was laid, not more. */
            youngerThan: number | null;
            olderThan: number | null;
            /** @description Laid long ago. */
            old: boolean | null;
            next: ("polyester" | "vinyl-ester" | "epoxy" | "paint")[] | null;
            use: ("laminating" | "gel-coat" | "finish" | "glue" | "fairing" | "paint")[] | null;
            bonding: ("structural" | "cosmetic") | null;
            binder: ("none" | "powder" | "styrene-soluble" | "unknown")[] | null;
        };
        NeededPreparation: {
            /** @enum {string} */
            kind: "dewax" | "wash" | "abrade" | "extract" | "wipe" | "peel";
            grit: number | null;
        };
        BondRule: {
            id: string;
            when: components["schemas"]["BondCondition"];
            /** @enum {string} */
            bond: "chemical" | "mechanical" | "wait" | "refused";
            preparation: components["schemas"]["NeededPreparation"][];
            warnings: string[];
            reason: string;
            /** @enum {string} */
            trust: "read" | "code" | "calculated" | "memory" | "practice" | "sheet" | "measured";
            source: string;
        };
        DoneToSurface: {
            /** @enum {string} */
            kind: "dewax" | "wash" | "abrade" | "extract" | "wipe" | "peel";
            minutesAgo: number;
            grit: number | null;
        };
        ExposedSurface: {
            /** @enum {string} */
            substrate: "polyester" | "vinyl-ester" | "epoxy" | "wood" | "metal" | "foam" | "paint";
            /** @enum {string} */
            kind: "inhibited" | "sealed" | "peel-ply" | "bare";
            /** @enum {string} */
            stage: "wet" | "open" | "between" | "hard" | "cured";
            /** @default false */
            waxed: boolean;
            /**
             * @description An amine film may be on it.
             * @default false
             */
            blush: boolean;
            /**
             * @description Since it was exposed, in order.
             * @default []
             */
            done: components["schemas"]["DoneToSurface"][];
            /**
             * @description Null: laid long ago.
             * @default null
             */
            ageMinutes: number | null;
        };
        When: {
            /**
             * Format: date-time
             * @description UTC.
             */
            at: string;
            /** @description The wall clock of the yard, `2026-11-30T07:00`. */
            local: string;
        };
        BoatDifference: {
            boatId: string;
            boat: string;
            refitId: string;
            refit: string;
            promised: components["schemas"]["When"] | null;
            /** @description When it is finished; null where the plan lacks it. */
            before: components["schemas"]["When"] | null;
            after: components["schemas"]["When"] | null;
            /** @description Later, or below 0 earlier. */
            minutes: number | null;
            /** @description Days lost, or below 0 gained, by the yard’s calendar. */
            days: number | null;
            /** @description Minutes from the promise to the handing over; 0 in time. */
            lateBefore: number;
            lateAfter: number;
        };
        WindowDifference: {
            linkId: string;
            kind: string;
            boatId: string;
            boat: string;
            part: string;
            fromTask: string;
            from: string;
            toTask: string;
            to: string;
            closes: components["schemas"]["When"];
        };
        WindowsDifference: {
            /** @description Made use of before, and no more. */
            lost: components["schemas"]["WindowDifference"][];
            regained: components["schemas"]["WindowDifference"][];
        };
        CrewMember: {
            personId: string;
            name: string;
        };
        TaskDifference: {
            taskId: string;
            task: string;
            boatId: string;
            boat: string;
            part: string;
            /**
             * @description At another time; at its time with other people; not there before; not there any more.
             * @enum {string}
             */
            kind: "moved" | "people" | "new" | "gone";
            from: components["schemas"]["When"] | null;
            to: components["schemas"]["When"] | null;
            minutes: number | null;
            peopleBefore: components["schemas"]["CrewMember"][];
            peopleAfter: components["schemas"]["CrewMember"][];
        };
        PersonDifference: {
            personId: string;
            name: string;
            /** @description Tasks, theirs before and after, at another time. */
            moves: string[];
            takes: string[];
            leaves: string[];
        };
        LowAndHigh: {
            low: number;
            high: number;
        };
        SheetHardener: {
            /** @enum {string} */
            kind: "percent" | "ratio";
            /** @description Percent by mass, or grams to 100 g of resin. */
            used: number;
            /** @description Outside: warned of. Null of a ratio. */
            warn: components["schemas"]["LowAndHigh"] | null;
            /** @description Outside: refused. Null of a ratio. */
            block: components["schemas"]["LowAndHigh"] | null;
        };
        CureRow: {
            celsius: number;
            minutes: number;
        };
        RateConstant: {
            a: number;
            e: number;
        };
        RateModel: {
            k1: components["schemas"]["RateConstant"];
            k2: components["schemas"]["RateConstant"];
            m: number;
            n: number;
            initial: number;
            reached: number;
        };
        TouchTest: {
            words: string;
            /** @enum {string} */
            trust: "read" | "code" | "calculated" | "memory" | "practice" | "sheet" | "measured";
            source: string;
        };
        MilestoneTimes: {
            /** @enum {string} */
            milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
            /** @enum {string} */
            kind: "table" | "activation" | "doubling" | "conversion";
            /** @description Of a fallback the one that is known. */
            rows: components["schemas"]["CureRow"][];
            kjPerMol: number | null;
            per10C: number | null;
            conversion: components["schemas"]["RateModel"] | null;
            /** @enum {string} */
            trust: "read" | "code" | "calculated" | "memory" | "practice" | "sheet" | "measured";
            source: string;
            /** @description A factor: openings reckon × spread, closings / spread. */
            spread: number;
            /** @description The yard’s own, from what it observed. */
            factor: number;
            /** @description By the yard’s own sheet. */
            overridden: boolean;
            /** @description How a builder finds out by hand. */
            touchTest: components["schemas"]["TouchTest"] | null;
        };
        SheetLine: {
            /**
             * @description Of the material.
             * @enum {string}
             */
            field: "minimumC" | "maximumC" | "warnBelowC" | "maximumHumidity" | "minimumDewMarginC" | "preheatHours" | "holdHours" | "hardener.usual" | "hardener.effect" | "hardener.per100" | "referenceGrams" | "referenceMm" | "massPower" | "thicknessPower" | "resinDensity" | "hardenerDensity" | "mixedDensity" | "gramsPerM2" | "shelfLifeDays";
            line: string;
            value: number;
            unit: string;
            /** @enum {string} */
            trust: "read" | "code" | "calculated" | "memory" | "practice" | "sheet" | "measured";
            source: string;
            spread: number;
            /** @enum {string} */
            spreadIs: "factor" | "offset";
            overridden: boolean;
        };
        MissingLine: {
            /** @enum {string} */
            milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
            line: string;
        };
        Caution: {
            text: string;
            source: string;
        };
        CatalogueFabric: {
            id: string;
            name: string;
            gramsPerM2: number;
            resinRatio: number;
            /**
             * @default none
             * @enum {string}
             */
            binder: "none" | "powder" | "styrene-soluble";
            source: string;
            /** @enum {string} */
            trust: "read" | "code" | "calculated" | "memory" | "practice" | "sheet" | "measured";
            published: components["schemas"]["LowAndHigh"];
        };
        PriceWork: {
            skill: string;
            name: string;
            minutes: number;
        };
        PriceMaterial: {
            id: string;
            name: string;
            amount: number;
            unit: string;
        };
        PriceBoat: {
            boatId: string;
            boat: string;
            refitId: string;
            /** Format: date-time */
            without: string;
            /** Format: date-time */
            with: string;
            minutes: number;
            promised: string | null;
            lateWithout: number;
            lateWith: number;
        };
        Price: {
            work: components["schemas"]["PriceWork"][];
            materials: components["schemas"]["PriceMaterial"][];
            cents: number | null;
            boats: components["schemas"]["PriceBoat"][];
        };
        Proposal: {
            id: string;
            /** @enum {string} */
            state: "pricing" | "priced" | "unplannable" | "accepted" | "declined" | "superseded";
            /** @description What it means for the work, in words. */
            meaning: string[];
            /** @description Against the same yard planned without it; null until it is priced. */
            price: components["schemas"]["Price"] | null;
            /** @description The price in words, line by line. */
            words: string[];
            /** @description Why there is no price. */
            why: string[];
            /** Format: date-time */
            createdAt: string;
            pricedAt: string | null;
            /** @description The work of the yard is not what it was priced with: it has to be priced again before a yes. */
            outdated: boolean;
        };
        ChangeWanted: {
            /** @enum {string} */
            kind: "size" | "add-part" | "drop-part";
            partId: string;
            part: string;
            /** @description As wanted; null: as it is. */
            areaM2: number | null;
            edgeM: number | null;
            jointM: number | null;
            /** @description Of a further part: what is to be done on it. */
            procedures: string[];
        };
        ChangeParty: {
            id: string | null;
            /** @description “The yard” where a name is not told. */
            name: string;
        };
        KnownTemperature: {
            cold: number;
            expected: number;
            warm: number;
        };
        ClimateHour: {
            when: components["schemas"]["When"];
            air: components["schemas"]["KnownTemperature"];
            surface: components["schemas"]["KnownTemperature"];
            /** @description Percent; null: not known. */
            humidity: number | null;
            dewPointC: number | null;
            /** @description Of the surface above the dew point. */
            marginC: number | null;
            /** @description The same, as cold as it may be. */
            leastMarginC: number | null;
            /** @description The outdoor table does not say: a day is repeated. */
            assumed: boolean;
            verdict: ("fine" | "warn" | "refuse" | "unknown") | null;
            reasons: string[];
            /** @description In what it falls short of a class rule for moulding shops. */
            mouldingShop: string[];
        };
        FilmMark: {
            /** @enum {string} */
            milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
            words: string;
            /** @description The safe moment that the plan keeps to. Null: not before its horizon. */
            when: components["schemas"]["When"] | null;
            /** @description The truth is expected between this … */
            earliest: components["schemas"]["When"] | null;
            /** @description … and this. */
            latest: components["schemas"]["When"] | null;
            /** @description How a builder finds out by hand. */
            touchTest: string | null;
        };
        FilmWindow: {
            /** @enum {string} */
            kind: "bond" | "tack";
            /** @description The latest that it may. */
            opens: components["schemas"]["When"] | null;
            /** @description The earliest that it may. */
            closes: components["schemas"]["When"] | null;
            /** @description No moment is safe for the whole film. */
            empty: boolean;
        };
        Invitation: {
            id: string;
            personId: string;
            person: string;
            /** @description Where the link was sent; null where it was handed over. */
            email: string | null;
            invitedBy: string;
            /** @enum {string} */
            state: "open" | "accepted" | "expired" | "revoked";
            /** Format: date-time */
            createdAt: string;
            /** Format: date-time */
            expiresAt: string;
            acceptedAt: string | null;
            revokedAt: string | null;
        };
        CureTable: {
            /** @enum {string} */
            milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
            rows: components["schemas"]["CureRow"][];
            /** @default null */
            conversion: components["schemas"]["RateModel"] | null;
            source: string;
            /**
             * @default sheet
             * @enum {string}
             */
            trust: "sheet" | "measured" | "practice";
            /** @default null */
            spread: number | null;
        };
        SheetFigure: {
            value: number;
            source: string;
            /**
             * @default sheet
             * @enum {string}
             */
            trust: "sheet" | "measured" | "practice";
            /** @default null */
            spread: number | null;
        };
        PercentRange: {
            low: number;
            high: number;
        };
        Hardener: {
            /** @constant */
            kind: "percent";
            /** @default null */
            usual: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            used: number | null;
            /** @default null */
            warn: components["schemas"]["PercentRange"] | null;
            /** @default null */
            block: components["schemas"]["PercentRange"] | null;
            /** @default null */
            effect: components["schemas"]["SheetFigure"] | null;
        } | {
            /** @constant */
            kind: "ratio";
            per100: components["schemas"]["SheetFigure"];
        };
        MaterialBody: {
            id: string;
            name: string;
            /** @default null */
            classId: string | null;
            /** @enum {string} */
            resinSystem: "polyester" | "vinyl-ester" | "epoxy";
            /** @default null */
            use: ("laminating" | "gel-coat" | "finish" | "glue" | "fairing") | null;
            /** @default null */
            surface: ("inhibited" | "sealed") | null;
            /** @default null */
            waxed: boolean | null;
            /** @default null */
            blushes: boolean | null;
            /** @default null */
            minimumC: number | null;
            /** @default null */
            maximumC: number | null;
            /** @default null */
            warnBelowC: number | null;
            /** @default null */
            belowMinimum: ("stalls" | "spoils") | null;
            /** @default [] */
            milestones: components["schemas"]["CureTable"][];
            /** @default null */
            maximumHumidity: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            minimumDewMarginC: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            dampAir: ("refuse" | "warn") | null;
            /** @default null */
            preheatHours: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            holdHours: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            hardener: components["schemas"]["Hardener"] | null;
            /** @default null */
            massPower: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            thicknessPower: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            referenceGrams: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            referenceMm: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            resinDensity: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            hardenerDensity: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            mixedDensity: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            gramsPerM2: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            shelfLifeDays: components["schemas"]["SheetFigure"] | null;
            /** @default null */
            keptIn: string | null;
            /** @default 0 */
            keptLagHours: number;
            /** @default false */
            isocyanate: boolean;
            /** @default [] */
            cautions: string[];
        };
        MaterialVersion: {
            version: number;
            /** Format: date-time */
            at: string;
            /** @description Null: it came with the yard. */
            by: string | null;
            material: components["schemas"]["MaterialBody"];
        };
        OwnerWeekItem: {
            /**
             * Format: date
             * @description A day in the yard's zone.
             */
            date: string;
            part: string;
            task: string;
            /** @enum {string} */
            state: "planned" | "working" | "done";
            /** @description Names, as planned; null where the yard does not show owners its crew. */
            crew: string[] | null;
            words: string;
        };
        OwnerRefit: {
            id: string;
            name: string;
            promised: components["schemas"]["When"] | null;
            /** @description By the published plan; null without one. */
            plannedFinish: components["schemas"]["When"] | null;
            /** @description From the promised moment to the handing over; 0 in time or where none is given. */
            lateMinutes: number;
            tasksDone: number;
            /** @description Of the published plan; 0 without one. */
            tasks: number;
            words: string;
            thisWeek: components["schemas"]["OwnerWeekItem"][];
        };
        OwnerStretch: {
            from: components["schemas"]["When"];
            until: components["schemas"]["When"];
            /** @description Of the own boats; null: occupied by others. */
            taskId: string | null;
            words: string;
        };
        OwnerSpace: {
            id: string;
            name: string;
            taken: components["schemas"]["OwnerStretch"][];
        };
        OwnerFinishMoved: {
            refitId: string;
            refit: string;
            /** @description By what was published then; null: not planned. */
            before: components["schemas"]["When"] | null;
            /** @description By what is published now; null: not planned. */
            after: components["schemas"]["When"] | null;
            /** @description Later, or (negative) earlier, by the calendar; null: one of them is missing. */
            days: number | null;
            words: string;
        };
        OwnerHistoryItem: {
            /** Format: date-time */
            at: string;
            /**
             * Format: date
             * @description Its day in the yard's zone.
             */
            date: string;
            /** @enum {string} */
            kind: "plan" | "work" | "snag" | "change";
            words: string[];
            /** @description As far as it is about the own boat. */
            why: string[];
            /** @description Of a snag or a change: which. */
            subjectId: string | null;
        };
        MyBoatChanged: {
            /** @description Follow on after it. */
            eventId: string;
            /** @description Of the own boats. */
            boatIds: string[];
        };
        FactorAndSpread: {
            factor: number;
            /** @description A factor: the truth is between factor / spread and × spread. */
            spread: number;
        };
        JudgedObservation: {
            observationId: string;
            /** @enum {string} */
            found: "just-now" | "already" | "not-yet";
            /** @description How far its clock had come by the sheet: 1 when the sheet says it is reached. */
            age: number;
            /** @description Why it was left out; null where it counts. */
            flag: ("outlier" | "contradicts" | "implied") | null;
            words: string;
        };
        MilestoneCalibration: {
            /** @enum {string} */
            milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
            /** @description On all times of the milestone; 1: as on the sheet. */
            factor: number;
            spread: number;
            prior: components["schemas"]["FactorAndSpread"];
            evidence: components["schemas"]["JudgedObservation"][];
        };
        MassFit: {
            /** @description Pot life goes with the mass to minus this power. */
            power: number;
            /** @description Standard error of the power. */
            error: number;
            factor: number;
            /** @description How far single cups are from the law, as a factor. */
            spread: number;
            words: string;
        };
        PasskeySite: {
            id: string;
            name: string;
        };
        PasskeyUser: {
            id: string;
            name: string;
            displayName: string;
        };
        PasskeyAlgorithm: {
            /** @constant */
            type: "public-key";
            alg: number;
        };
        PasskeyKnown: {
            /** @constant */
            type: "public-key";
            id: string;
            transports: string[];
        };
        PasskeySelection: {
            /** @constant */
            residentKey: "required";
            requireResidentKey: boolean;
            /** @constant */
            userVerification: "required";
        };
        PasskeyCreationOptions: {
            rp: components["schemas"]["PasskeySite"];
            user: components["schemas"]["PasskeyUser"];
            challenge: string;
            pubKeyCredParams: components["schemas"]["PasskeyAlgorithm"][];
            /** @description Milliseconds. */
            timeout: number;
            excludeCredentials: components["schemas"]["PasskeyKnown"][];
            authenticatorSelection: components["schemas"]["PasskeySelection"];
            /** @constant */
            attestation: "none";
        };
        PasskeyRequestOptions: {
            challenge: string;
            rpId: string;
            /** @description Milliseconds. */
            timeout: number;
            /** @constant */
            userVerification: "required";
        };
        Ability: {
            skill: string;
            level: number;
            /** @default 100 */
            speed: number;
        };
        Break: {
            from: string;
            to: string;
        };
        WeeklyShift: {
            from: string;
            to: string;
            /** @default [] */
            breaks: components["schemas"]["Break"][];
            /** @description ISO: 1 Monday to 7 Sunday */
            weekday: number;
        };
        Shift: {
            from: string;
            to: string;
            /** @default [] */
            breaks: components["schemas"]["Break"][];
        };
        ShiftException: {
            /** Format: date */
            date: string;
            /** @default [] */
            shifts: components["schemas"]["Shift"][];
            /** @default  */
            reason: string;
        };
        Overtime: {
            /** @description ISO: 1 Monday to 7 Sunday */
            weekday: number;
            from: string;
            to: string;
        };
        PlannedRefit: {
            refitId: string;
            promised: string | null;
            /** Format: date-time */
            finish: string;
        };
        PlanSummary: {
            id: string;
            runId: string;
            /** Format: date-time */
            createdAt: string;
            /** @description Null unless it is the yard’s published plan. */
            publishedAt: string | null;
            /** @enum {string} */
            status: "optimal" | "feasible" | "infeasible" | "unknown";
            /** @description Weighted minutes late. */
            lateness: number;
            /** @description Weighted finishes, minutes from the beginning. */
            finishes: number;
            /** @description As the engine counts it; cents are in the plan itself. */
            money: number;
            /** @description Changes against what was published, weighted. */
            disturbance: number;
            refits: components["schemas"]["PlannedRefit"][];
        };
        WorkSpan: {
            start: components["schemas"]["When"];
            finish: components["schemas"]["When"];
        };
        Place: {
            spaceId: string;
            space: string;
        };
        PlanSlot: {
            listId: string;
            list: string;
            from: components["schemas"]["When"];
            until: components["schemas"]["When"];
            /** @description Cents; 0 where it is booked already. */
            price: number;
            /** @description Null where it is booked. */
            bookBy: components["schemas"]["When"] | null;
        };
        CureWindow: {
            linkId: string;
            toTask: string;
            toName: string;
            /** @description `bond`, `sand`, `tack`, `handle`, `wait`, … */
            kind: string;
            opens: components["schemas"]["When"] | null;
            closes: components["schemas"]["When"] | null;
        };
        MixFabric: {
            id: string;
            name: string;
            squareMetres: number;
            grams: number;
        };
        MixCup: {
            number: number;
            resinGrams: number;
            hardenerGrams: number;
            /** @description Null where no density is known. */
            hardenerMl: number | null;
            mixAt: components["schemas"]["When"];
            spreadBy: components["schemas"]["When"];
            potLifeEnds: components["schemas"]["When"];
        };
        MixSheet: {
            materialId: string;
            material: string;
            /** @description Of the resin when the first cup is mixed. */
            celsius: number;
            fabrics: components["schemas"]["MixFabric"][];
            /** @description Null where nothing can be weighed: see `missing`. */
            resinGrams: number | null;
            hardenerGrams: number | null;
            hardenerMl: number | null;
            /** @description Kilograms per litre, for the millilitres. */
            hardenerDensity: number | null;
            ratio: string | null;
            /** @description Of one of its cups. */
            potLifeMinutes: number | null;
            useWithinMinutes: number | null;
            cups: components["schemas"]["MixCup"][];
            /** @description The arithmetic of the amounts, line by line. */
            steps: string[];
            /** @description Which lines of the data sheet are to be entered. */
            missing: string[];
        };
        PlanBond: {
            /** @description That laid the surface; null: it was there before. */
            onTask: string | null;
            surface: string;
            /** @enum {string} */
            bond: "chemical" | "mechanical";
            /** @description What has to be done first, in order. */
            preparation: string[];
            reason: string;
            source: string;
        };
        PlanAmount: {
            id: string;
            name: string;
            amount: number;
            unit: string;
            source: string;
        };
        PlanTask: {
            id: string;
            name: string;
            refitId: string;
            boatId: string;
            boat: string;
            partId: string;
            part: string;
            jobId: string;
            stepId: string;
            spaceId: string;
            space: string;
            /** @enum {string} */
            air: "clean" | "dusty" | "wet";
            /** @description Null of a hold point. */
            skill: string | null;
            material: string | null;
            /** @enum {string} */
            state: "waiting" | "working" | "paused" | "done" | "redo";
            start: components["schemas"]["When"];
            finish: components["schemas"]["When"];
            /** @description The working spans from start to finish. */
            segments: components["schemas"]["WorkSpan"][];
            crew: components["schemas"]["CrewMember"][];
            /** @description Beyond the shifts, of all who are on it together. */
            overtimeMinutes: number;
            /** @description When brushes and tools are clean. */
            cleanedDown: components["schemas"]["When"] | null;
            /** @description Where its part is taken. */
            movesTo: components["schemas"]["Place"] | null;
            slot: components["schemas"]["PlanSlot"] | null;
            /** @description It can slip so far with no boat finishing later. */
            floatMinutes: number | null;
            /** @description When what is laid reaches its milestones. */
            film: components["schemas"]["FilmMark"][];
            /** @description What follow-ups must keep to. */
            windows: components["schemas"]["CureWindow"][];
            mix: components["schemas"]["MixSheet"] | null;
            /** @description Of a coat: null where its surface is not known. */
            bond: components["schemas"]["PlanBond"] | null;
            consumables: components["schemas"]["PlanAmount"][];
            /** @description To be looked at before work begins. */
            warnings: string[];
            /** @description Never to be switched off. */
            cautions: components["schemas"]["Caution"][];
        };
        PlanChoice: {
            id: string;
            name: string;
            partId: string;
            branch: string;
            branchName: string;
        };
        /** @description Proved: this one alone cannot finish before. */
        PlanBoatEarliest: components["schemas"]["When"];
        YardRow: {
            kind: string;
            id: string;
            name: string;
            /** @description In the yard file; empty for what the plan was asked for. */
            path: string;
        };
        ChainStep: {
            fromTask: string | null;
            toTask: string;
            until: components["schemas"]["When"];
            reason: string;
            /** @description What in the yard asks for it. */
            row: components["schemas"]["YardRow"] | null;
            text: string;
        };
        PlanBoat: {
            boatId: string;
            boat: string;
            refitId: string;
            refit: string;
            ownerId: string | null;
            promised: components["schemas"]["When"] | null;
            finish: components["schemas"]["When"];
            earliest: components["schemas"]["PlanBoatEarliest"];
            /** @description From `earliest` to `finish`. */
            gapMinutes: number;
            lateMinutes: number;
            tasks: number;
            /** @description Why it takes that long, from the first cause. */
            chain: components["schemas"]["ChainStep"][];
        };
        PlanRank: {
            /** @enum {string} */
            rank: "promises" | "finishes" | "money" | "disturbance";
            /** @description Weighted minutes twice, cents, weighted changes. */
            value: number;
            /** @description No plan that is as good in the ranks before can be below it. */
            bound: number;
            distance: number;
            gap: number;
            proof: string;
        };
        PlanMoney: {
            labour: number;
            overtime: number;
            slots: number;
            prices: number;
            /** @description Heaters and tents; not in the total. */
            climate: number;
            total: number;
        };
        PlanMovePeople: {
            before: string[];
            now: string[];
        };
        PlanMove: {
            taskId: string;
            published: components["schemas"]["When"];
            /** @description Null: it is not done any more. */
            planned: components["schemas"]["When"] | null;
            moved: boolean;
            people: components["schemas"]["PlanMovePeople"] | null;
        };
        PlanShopping: {
            id: string;
            name: string;
            /** @enum {string} */
            kind: "resin" | "hardener" | "fabric" | "consumable";
            unit: string;
            /** @description The Monday, by the yard’s date. */
            week: string;
            amount: number;
            firstUse: components["schemas"]["When"];
            lastUse: components["schemas"]["When"];
            shelfLifeDays: number | null;
        };
        MaterialLine: {
            line: string;
            value: string;
            /** @enum {string} */
            trust: "read" | "code" | "calculated" | "memory" | "practice" | "sheet" | "measured";
            source: string;
            spread: number;
            /** @description The yard’s own number stands in the place of the class’s. */
            overridden: boolean;
            /** @description What the yard observed; 1 where nothing was. */
            factor: number;
        };
        PlanMaterial: {
            id: string;
            name: string;
            classId: string | null;
            /** @description The version of the catalogue of classes. */
            catalogue: string;
            lines: components["schemas"]["MaterialLine"][];
        };
        WeekRow: {
            date: string;
            /** @description Wall time of the yard. */
            from: string;
            to: string;
            taskId: string;
            task: string;
            part: string;
            boat: string;
            spaceId: string;
            space: string;
            people: string[];
            /** @enum {string} */
            air: "clean" | "dusty" | "wet";
            /** @description Begun in an earlier stretch. */
            continued: boolean;
            /** @description Ends in a later stretch. */
            continues: boolean;
        };
        WeekGroup: {
            id: string;
            name: string;
            rows: components["schemas"]["WeekRow"][];
        };
        Publishing: {
            id: string;
            planId: string;
            /** Format: date-time */
            publishedAt: string;
            /** @description Null: automatically, or before it was kept. */
            publishedBy: string | null;
        };
        /** @description The start asked about. */
        WhyNotEarlierAsked: components["schemas"]["When"];
        /** @description What in the yard holds the plan up. */
        ShorteningRow: components["schemas"]["YardRow"];
        ShortenedRefit: {
            refit: string;
            /** @description Below 0: later, for the sake of another. */
            earlierMinutes: number;
        };
        Shortening: {
            row: components["schemas"]["ShorteningRow"];
            /**
             * @description Whether one more of it was tried, or doing without it.
             * @enum {string}
             */
            easing: "one-more" | "without";
            /** @description Those that would finish at another time. */
            refits: components["schemas"]["ShortenedRefit"][];
            text: string;
        };
        PlanViolation: {
            kind: string;
            message: string;
            taskIds: string[];
            /** @description What in the yard it is against. */
            row: components["schemas"]["YardRow"] | null;
        };
        PictureSpan: {
            /** Format: date-time */
            from: string;
            /** Format: date-time */
            until: string;
        };
        PictureMark: {
            /** @enum {string} */
            milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
            at: string | null;
        };
        PictureWindow: {
            toTask: string;
            toName: string;
            /** @description As of `CureWindow`. */
            kind: string;
            opens: string | null;
            closes: string | null;
            /**
             * Format: date-time
             * @description When the follow-up is planned.
             */
            starts: string;
        };
        PictureNow: {
            /**
             * @description By what has been reported by now, whatever the plan was made from.
             * @enum {string}
             */
            state: "waiting" | "working" | "paused" | "done" | "redo" | "claimed" | "dropped";
            /** @description Ids of people who have it in hand, or did it. */
            crew: string[];
            startedAt: string | null;
            /** @description Of work that is done. */
            finishedAt: string | null;
        };
        PictureTask: {
            id: string;
            name: string;
            refitId: string;
            partId: string;
            part: string;
            spaceId: string;
            /** @enum {string} */
            air: "clean" | "dusty" | "wet";
            /** @description Null of a hold point. */
            skill: string | null;
            material: string | null;
            /** Format: date-time */
            start: string;
            /** Format: date-time */
            finish: string;
            segments: components["schemas"]["PictureSpan"][];
            /** @description Ids of people. */
            crew: string[];
            cleanedDown: string | null;
            floatMinutes: number | null;
            film: components["schemas"]["PictureMark"][];
            /** @description So long its film matters to somebody; null: no film. */
            filmUntil: string | null;
            windows: components["schemas"]["PictureWindow"][];
            warnings: string[];
            /** @description Set by the foreman for plans to come. */
            fixedStart: string | null;
            /** @description By the foreman. */
            crewIsSet: boolean;
            now: components["schemas"]["PictureNow"];
        };
        PicturePerson: {
            id: string;
            name: string;
            /** @description Shifts without their breaks. */
            hours: components["schemas"]["PictureSpan"][];
        };
        PictureSpace: {
            id: string;
            name: string;
            /** @description Null: the yard does not have it any more. */
            room: number | null;
            dustReaches: string[];
        };
        PictureStep: {
            fromTask: string | null;
            toTask: string;
            /** Format: date-time */
            until: string;
            text: string;
        };
        PictureBoat: {
            boatId: string;
            boat: string;
            refitId: string;
            refit: string;
            promised: string | null;
            /** Format: date-time */
            finish: string;
            lateMinutes: number;
            /** @description Why it takes that long, from the first cause. */
            chain: components["schemas"]["PictureStep"][];
        };
        /** @description The first moment then in which everybody on it works. */
        TriedPlacementStart: components["schemas"]["When"];
        AgainstPlacement: {
            /** @description `lag:bond`, `builder`, `dust`, `forbidden`, `past`, … */
            reason: string;
            words: string;
            /** @description What in the yard asks for it. */
            row: components["schemas"]["YardRow"] | null;
            /** @description The other tasks that it is about. */
            taskIds: string[];
        };
        RunProgress: {
            /** @description Last-Event-ID to go on from. */
            eventId: string;
            runId: string;
            /** Format: date-time */
            at: string;
            /** @enum {string} */
            status: "queued" | "running" | "finished" | "stopped" | "failed" | "infeasible";
            stopRequested: boolean;
            iterations: number;
            /** @description When the last refit would be done. */
            bestFinish: string | null;
            /** @description Weighted minutes late, best so far. */
            bestLateness: number | null;
            /** @description Weighted finishes, minutes. */
            bestFinishes: number | null;
            /** @description No plan can be less late. */
            boundLateness: number | null;
            /** @description No plan can finish earlier. */
            boundFinishes: number | null;
            /**
             * @description Cents, of the best so far.
             * @default null
             */
            bestMoney: number | null;
            /**
             * @description What the best so far moves of the published plan, weighted.
             * @default null
             */
            bestDisturbance: number | null;
            /**
             * @description No plan that is as early can cost less.
             * @default null
             */
            boundMoney: number | null;
            /**
             * @description No plan that is as early and as cheap can move less.
             * @default null
             */
            boundDisturbance: number | null;
            /** @description How far the best may be from the best possible, as a share of the time the refits take. */
            gap: number | null;
            /**
             * @description Milliseconds of computing before the first plan was there; known once the run has ended.
             * @default null
             */
            firstPlanMs: number | null;
            planId: string | null;
            error: string | null;
        };
        RunFault: {
            code: string;
            path: string;
            message: string;
            cure: string;
        };
        Effort: {
            /** @default 0 */
            fixed: number;
            /** @default 0 */
            perM2: number;
            /** @default 0 */
            perEdgeM: number;
            /** @default 0 */
            perJointM: number;
            source: string;
        };
        QuantityPlies: {
            fabric: string;
            layers?: number | null;
            widthMm?: number | null;
        };
        Quantity: {
            /** @constant */
            kind: "laminate";
            plies: {
                fabric: string;
                layers: number;
            }[];
            /** @default 0 */
            wastePercent: number;
        } | {
            /** @constant */
            kind: "tabbing";
            plies: {
                fabric: string;
                widthMm: number;
            }[];
            /** @default 0 */
            wastePercent: number;
        } | {
            /** @constant */
            kind: "coat";
            /** @default null */
            gramsPerM2: number | null;
            /** @default 1 */
            coats: number;
            /** @default 0 */
            wastePercent: number;
        } | {
            /** @constant */
            kind: "fill";
            mm: number;
            /** @default 0 */
            wastePercent: number;
        } | {
            /** @constant */
            kind: "fillet";
            radiusMm: number;
            /** @default 1 */
            sides: number;
            /** @default 0 */
            wastePercent: number;
        } | {
            /** @constant */
            kind: "glue-line";
            widthMm: number;
            /** @default null */
            gramsPerM2: number | null;
            /** @default 0 */
            wastePercent: number;
        };
        Preparation: {
            /** @enum {string} */
            kind: "dewax" | "wash" | "abrade" | "extract" | "wipe" | "peel";
            /** @default null */
            grit: number | null;
            /** @default null */
            mm: number | null;
            /** @default 1 */
            passes: number;
        };
        ToolNeed: {
            tool: string;
            /** @default 1 */
            count: number;
        };
        Move: {
            /** @constant */
            kind: "turn";
        } | {
            /** @constant */
            kind: "space";
            space: string;
        } | {
            /** @constant */
            kind: "destination";
        };
        HoldEnd: {
            /** @constant */
            kind: "after";
            minutes: number;
        } | {
            /** @constant */
            kind: "milestone";
            /** @enum {string} */
            milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
        } | {
            /** @constant */
            kind: "step";
            step: string;
            /** @enum {string} */
            anchor: "start" | "finish";
        };
        Hold: {
            id: string;
            tool: string;
            /** @default 1 */
            count: number;
            until: components["schemas"]["HoldEnd"][];
        };
        Consumption: {
            stock: string;
            /** @default 0 */
            fixed: number;
            /** @default 0 */
            perM2: number;
            /** @default 0 */
            perEdgeM: number;
            /** @default 0 */
            perJointM: number;
        };
        BarrierAct: {
            barrier: string;
            closes: boolean;
        };
        Moment: {
            /** @constant */
            kind: "after";
            minutes: number;
        } | {
            /** @constant */
            kind: "milestone";
            /** @enum {string} */
            milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
        };
        Step: {
            id: string;
            name: string;
            effort: components["schemas"]["Effort"];
            skill: string | null;
            /** @default 1 */
            minLevel: number;
            crewMin: number;
            crewMax: number;
            /** @default 0 */
            floorMinutes: number;
            /** @enum {string} */
            air: "clean" | "dusty" | "wet";
            /** @default null */
            material: string | null;
            /** @default null */
            quantity: components["schemas"]["Quantity"] | null;
            /** @default false */
            oneBatch: boolean;
            /** @default [] */
            prepares: components["schemas"]["Preparation"][];
            /**
             * @default structural
             * @enum {string}
             */
            bonding: "structural" | "cosmetic";
            /** @default null */
            space: string | null;
            /** @default [] */
            tools: components["schemas"]["ToolNeed"][];
            splittable: boolean;
            /**
             * @default observed
             * @enum {string}
             */
            breaks: "relieved" | "observed";
            /** @default 0 */
            cleanDownMinutes: number;
            /** @default null */
            move: components["schemas"]["Move"] | null;
            /** @default true */
            onPart: boolean;
            /** @default false */
            joins: boolean;
            /** @default [] */
            holds: components["schemas"]["Hold"][];
            /** @default [] */
            consumes: components["schemas"]["Consumption"][];
            /** @default null */
            barrier: components["schemas"]["BarrierAct"] | null;
            /** @default null */
            slots: string | null;
            /** @default 0 */
            price: number;
            /** @default null */
            sensitiveUntil: components["schemas"]["Moment"] | null;
            /** @default [] */
            coveredBy: string[];
        };
        Link: {
            id: string;
            from: string;
            to: string;
            opens: components["schemas"]["Moment"] | null;
            /** @default null */
            closes: components["schemas"]["Moment"] | null;
            /**
             * @default unknown
             * @enum {string}
             */
            sweep: "unknown" | "same";
        };
        Branch: {
            id: string;
            name: string;
            steps: string[];
            links: string[];
        };
        Choice: {
            id: string;
            name: string;
            branches: components["schemas"]["Branch"][];
        };
        PreviewMix: {
            mixGrams: number;
            filmMm: number | null;
            fabrics: components["schemas"]["MixFabric"][];
        };
        PreviewTool: {
            name: string;
            count: number;
        };
        PreviewStock: {
            name: string;
            amount: number;
            unit: string;
        };
        ProcedureWay: {
            choice: string;
            branch: string;
        };
        PreviewWait: {
            stepId: string;
            words: string;
            /** @description Where it holds in one branch only. */
            way: components["schemas"]["ProcedureWay"] | null;
        };
        PreviewTask: {
            stepId: string;
            name: string;
            isHoldPoint: boolean;
            /** @description Builder-minutes at the nominal rate; 0 of a hold point. */
            workMinutes: number;
            floorMinutes: number;
            cleanDownMinutes: number;
            /** @description By name. */
            skill: string | null;
            minLevel: number;
            crewMin: number;
            crewMax: number;
            /** @enum {string} */
            air: "clean" | "dusty" | "wet";
            /** @description By name. */
            space: string | null;
            /** @description By name; its own space: it is turned over. */
            movesTo: string | null;
            /** @description By name. */
            material: string | null;
            mix: components["schemas"]["PreviewMix"] | null;
            /** @description Why nothing can be weighed. */
            lacks: string | null;
            oneBatch: boolean;
            prepares: components["schemas"]["Preparation"][];
            tools: components["schemas"]["PreviewTool"][];
            consumes: components["schemas"]["PreviewStock"][];
            /** @description Cents. */
            price: number;
            /** @description Where it is done in one branch only. */
            way: components["schemas"]["ProcedureWay"] | null;
            waits: components["schemas"]["PreviewWait"][];
        };
        PreviewBranch: {
            id: string;
            name: string;
            workMinutes: number;
        };
        PreviewChoice: {
            id: string;
            name: string;
            branches: components["schemas"]["PreviewBranch"][];
        };
        YardProductivity: {
            /** @description How many times as long as planned: 1.2 is a fifth longer. */
            factor: number;
            /** @description Four times out of five the true factor lies between low and high. */
            low: number;
            high: number;
            tasks: number;
            /** @description Builder-minutes, by the numbers that are planned with now. */
            planned: number;
            /** @description Builder-minutes, breaks and nights inside a span left out. */
            actual: number;
            /** @description Three tasks or more, 5 % or more, and an interval that leaves out 1. */
            advised: boolean;
        };
        StepProductivity: {
            procedureId: string;
            procedure: string;
            stepId: string;
            step: string;
            /** @description The procedure’s version; goes with the word to apply it. */
            revision: number;
            /** @description How many times as long as planned: 1.2 is a fifth longer. */
            factor: number;
            /** @description Four times out of five the true factor lies between low and high. */
            low: number;
            high: number;
            tasks: number;
            /** @description Builder-minutes, by the numbers that are planned with now. */
            planned: number;
            /** @description Builder-minutes, breaks and nights inside a span left out. */
            actual: number;
            /** @description Three tasks or more, 5 % or more, and an interval that leaves out 1. */
            advised: boolean;
        };
        PersonProductivity: {
            personId: string;
            person: string;
            skillId: string;
            skill: string;
            /** @description Goes with the word to apply it. */
            revision: number;
            /** @description Percent of the nominal rate that is planned with. */
            speed: number;
            /** @description What it would be with the factor applied. */
            speedThen: number;
            /** @description How many times as long as planned: 1.2 is a fifth longer. */
            factor: number;
            /** @description Four times out of five the true factor lies between low and high. */
            low: number;
            high: number;
            tasks: number;
            /** @description Builder-minutes, by the numbers that are planned with now. */
            planned: number;
            /** @description Builder-minutes, breaks and nights inside a span left out. */
            actual: number;
            /** @description Three tasks or more, 5 % or more, and an interval that leaves out 1. */
            advised: boolean;
        };
        SpaceProductivity: {
            spaceId: string;
            space: string;
            /** @description Goes with the word to apply it. */
            revision: number;
            workPercent: number;
            /** @description What it would be with the factor applied. */
            workPercentThen: number;
            /** @description How many times as long as planned: 1.2 is a fifth longer. */
            factor: number;
            /** @description Four times out of five the true factor lies between low and high. */
            low: number;
            high: number;
            tasks: number;
            /** @description Builder-minutes, by the numbers that are planned with now. */
            planned: number;
            /** @description Builder-minutes, breaks and nights inside a span left out. */
            actual: number;
            /** @description Three tasks or more, 5 % or more, and an interval that leaves out 1. */
            advised: boolean;
        };
        OddTask: {
            taskId: string;
            task: string;
            factor: number;
        };
        TasksLeftOut: {
            tasks: number;
            words: string;
        };
        Claimant: {
            id: string;
            name: string;
        };
        Override: {
            reason: string;
            byId: string;
        };
        PlannedTask: {
            start: components["schemas"]["When"];
            finish: components["schemas"]["When"];
            crew: components["schemas"]["CrewMember"][];
        };
        HeldBy: {
            id: string;
            /** @enum {string} */
            status: "open" | "working" | "paused" | "finished" | "released" | "lapsed";
            crew: components["schemas"]["Claimant"][];
            /** @description Not started by then, it is free again. */
            lapsesAt: string | null;
        };
        ReadyTask: {
            taskId: string;
            name: string;
            partId: string;
            part: string;
            boatId: string;
            boat: string;
            refitId: string;
            spaceId: string;
            space: string;
            /** @description Null of a hold point: it waits for somebody’s word. */
            skill: string | null;
            minLevel: number;
            crewMin: number;
            crewMax: number;
            /** @description It cannot be put aside half done. */
            inOneGo: boolean;
            /** @description Of one builder at the nominal rate; of what was put aside, the rest. */
            workMinutes: number;
            /** @enum {string} */
            state: "waiting" | "opens" | "ready" | "claimed" | "working" | "paused" | "done" | "redo";
            /** @description When the boats need it begun at the latest; the list goes by it. */
            neededBy: components["schemas"]["When"] | null;
            /** @description What says so: a window, the foreman, the plan. */
            because: string | null;
            /** @description What else is to be known before it is taken up, in sentences. */
            notes: string[];
            /** @description In the published plan; null where it does not have the task. */
            planned: components["schemas"]["PlannedTask"] | null;
            plannedForMe: boolean;
            /** @description Who holds the task; null while nobody does. */
            claim: components["schemas"]["HeldBy"] | null;
            /** @description Why the caller cannot take it up: the skill, the holder, the crew that is set. */
            notForMe: string | null;
            /** @description The window shuts then: the task has to be over. Null: nothing presses. */
            closes: components["schemas"]["When"] | null;
            /** @description How long the window stays open; null: no end. */
            openMinutes: number | null;
            /** @description To be over in time with the largest crew at the nominal rate. */
            startBy: components["schemas"]["When"] | null;
            /** @description Null: it mixes nothing. */
            mix: components["schemas"]["MixSheet"] | null;
            bond: components["schemas"]["PlanBond"] | null;
            consumables: components["schemas"]["PlanAmount"][];
            /** @description To be looked at first. */
            warnings: string[];
            /** @description Never to be switched off. */
            cautions: components["schemas"]["Caution"][];
        };
        WaitingTask: {
            taskId: string;
            name: string;
            partId: string;
            part: string;
            boatId: string;
            boat: string;
            refitId: string;
            spaceId: string;
            space: string;
            /** @description Null of a hold point: it waits for somebody’s word. */
            skill: string | null;
            minLevel: number;
            crewMin: number;
            crewMax: number;
            /** @description It cannot be put aside half done. */
            inOneGo: boolean;
            /** @description Of one builder at the nominal rate; of what was put aside, the rest. */
            workMinutes: number;
            /** @enum {string} */
            state: "waiting" | "opens" | "ready" | "claimed" | "working" | "paused" | "done" | "redo";
            /** @description When the boats need it begun at the latest; the list goes by it. */
            neededBy: components["schemas"]["When"] | null;
            /** @description What says so: a window, the foreman, the plan. */
            because: string | null;
            /** @description What else is to be known before it is taken up, in sentences. */
            notes: string[];
            /** @description In the published plan; null where it does not have the task. */
            planned: components["schemas"]["PlannedTask"] | null;
            plannedForMe: boolean;
            /** @description Who holds the task; null while nobody does. */
            claim: components["schemas"]["HeldBy"] | null;
            /** @description Why the caller cannot take it up: the skill, the holder, the crew that is set. */
            notForMe: string | null;
            why: string;
            /** @description When that is over, where it is known. */
            opens: components["schemas"]["When"] | null;
        };
        TaskSpan: {
            claimId: string;
            /** Format: date-time */
            start: string;
            /** @description Null: still at it. */
            end: string | null;
        };
        Reporter: {
            id: string;
            name: string;
        };
        StartOverride: {
            reason: string;
        };
        ReportCommand: {
            /** @constant */
            kind: "claim";
            taskId: string;
            /** @description Who does it, the holder first; left out, the caller alone. */
            crew?: string[];
        } | {
            /** @constant */
            kind: "join";
            taskId: string;
            member?: string;
        } | {
            /** @constant */
            kind: "leave";
            taskId: string;
            member?: string;
        } | {
            /** @constant */
            kind: "release";
            taskId: string;
            /** @description Builder-minutes at the nominal rate that are still to be done. */
            leftMinutes?: number;
        } | {
            /** @constant */
            kind: "start";
            taskId: string;
            override?: components["schemas"]["StartOverride"];
        } | {
            /** @constant */
            kind: "pause";
            taskId: string;
            /** @description Builder-minutes at the nominal rate that are still to be done. */
            leftMinutes?: number;
        } | {
            /** @constant */
            kind: "resume";
            taskId: string;
        } | {
            /** @constant */
            kind: "progress";
            taskId: string;
            /** @description Builder-minutes at the nominal rate that are still to be done. */
            leftMinutes: number;
        } | {
            /** @constant */
            kind: "finish";
            taskId: string;
        } | {
            /** @constant */
            kind: "abandon";
            taskId: string;
            reason: string;
        } | {
            /** @constant */
            kind: "fail-batch";
            taskId: string;
            reason: string;
        } | {
            /** @constant */
            kind: "undo";
            taskId: string;
        } | {
            space: string;
            /**
             * @default air
             * @enum {string}
             */
            of: "air" | "surface";
            celsius: number;
            /** @default null */
            humidity: number | null;
            /** @default  */
            note: string;
            /** @constant */
            kind: "reading";
        } | {
            /** @description The task that has laid the film. */
            taskId: string;
            /**
             * @description Wet, tacky, clogs the paper, or sands dry.
             * @enum {string}
             */
            found: "still-wet" | "tacky" | "clogs" | "dry";
            /** @default  */
            note: string;
            /** @constant */
            kind: "tack-test";
        };
        ReportReason: {
            /** @description From the catalogue of errors. */
            code: string;
            /** @description Into the report; empty for the whole. */
            path: string;
            message: string;
            cure: string;
        };
        TakenReport: {
            /** @description Null where the report had none. */
            key: string | null;
            /**
             * @description Refused: not kept, since it cannot be understood; the others are.
             * @enum {string}
             */
            outcome: "done" | "held" | "dismissed" | "refused";
            reasons: components["schemas"]["ReportReason"][];
            /** @description Null of what was refused. */
            report: components["schemas"]["Report"] | null;
        };
        MySession: {
            id: string;
            /** @description What the browser or program said of itself. */
            agent: string;
            /** Format: date-time */
            createdAt: string;
            /**
             * Format: date-time
             * @description Behind the truth by a minute at most.
             */
            lastSeenAt: string;
            /**
             * Format: date-time
             * @description The latest end; idle for hours it ends before.
             */
            expiresAt: string;
            /** @description When a second factor was shown in it. */
            secondFactorAt: string | null;
            /** @description It is the one that asks. */
            current: boolean;
        };
        Slot: {
            /** Format: date-time */
            from: string;
            /** Format: date-time */
            to: string;
            /** @default 0 */
            price: number;
            /** @default 0 */
            noticeHours: number;
            /** @default false */
            booked: boolean;
        };
        SnagRework: {
            id: string;
            words: string;
            /** Format: date-time */
            madeAt: string;
            taskIds: string[];
        };
        SnagKindInWords: {
            /** @enum {string} */
            kind: "void" | "delamination" | "uncured" | "amine-blush" | "fish-eyes" | "pinholes" | "runs" | "print-through" | "out-of-fair" | "cracks" | "damage" | "wrong-size" | "misplaced";
            name: string;
            /** @description How it shows. */
            shows: string;
            source: string;
        };
        SetPoint: {
            weekdays: number[];
            from: string;
            celsius: number;
        };
        Climate: {
            /** @constant */
            kind: "heated";
            setPoints: components["schemas"]["SetPoint"][];
            /** @default 0 */
            lagHours: number;
        } | {
            /** @constant */
            kind: "outdoors";
            lagHours: number;
            /** @default 0 */
            warmerBy: number;
        };
        SpaceHumidity: {
            /** @constant */
            kind: "outdoors";
            /** @default 0 */
            addsHPa: number;
        } | {
            /** @constant */
            kind: "held";
            percent: number;
        };
        Skin: {
            outdoorShare: number;
            /** @default 0 */
            lagHours: number;
        };
        ClimateChange: {
            id: string;
            name: string;
            /** @enum {string} */
            kind: "heater" | "tent" | "dehumidifier";
            /** Format: date-time */
            from: string;
            /** Format: date-time */
            to: string;
            /** @default null */
            celsius: number | null;
            /** @default null */
            lagHours: number | null;
            /** @default null */
            warmerBy: number | null;
            /** @default null */
            percent: number | null;
            /** @default false */
            unvented: boolean;
            /** @default 0 */
            watts: number;
            /** @default 0 */
            costPerDay: number;
        };
        Absence: {
            /** Format: date-time */
            from: string;
            /** Format: date-time */
            to: string;
            count: number;
        };
        Hours: {
            /** @description ISO: 1 Monday to 7 Sunday */
            weekday: number;
            from: string;
            to: string;
        };
        ToldTask: {
            planId: string;
            /** Format: date-time */
            publishedAt: string;
            /** @description Null: automatically. */
            publishedBy: string | null;
            start: components["schemas"]["When"];
            finish: components["schemas"]["When"];
            segments: components["schemas"]["WorkSpan"][];
            crew: components["schemas"]["CrewMember"][];
        };
        RealSpan: {
            start: components["schemas"]["When"];
            /** @description Null: still at it. */
            finish: components["schemas"]["When"] | null;
            crew: components["schemas"]["CrewMember"][];
        };
        ActualWork: {
            startedAt: components["schemas"]["When"] | null;
            finishedAt: components["schemas"]["When"] | null;
            /** @description Time really worked, by whom. */
            spans: components["schemas"]["RealSpan"][];
        };
        Consumable: {
            id: string;
            name: string;
            unit: string;
            /** @enum {string} */
            of: "dewax" | "wash" | "abrade" | "extract" | "wipe" | "peel";
            perM2: number;
            source: string;
        };
        YardWarning: {
            /** @description In the yard file. */
            path: string;
            message: string;
            source: string | null;
        };
        Problem: {
            type: string;
            title: string;
            status: number;
            detail: string;
            instance?: string;
            /** @description From the catalogue of errors; stable. */
            code: string;
            /** @description What to do about it. */
            cure: string;
            errors: {
                code: string;
                path: string;
                value?: unknown;
                message: string;
                cure: string;
            }[];
        };
    };
    responses: never;
    parameters: never;
    requestBodies: never;
    headers: never;
    pathItems: never;
}
export interface operations {
    health_health: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Health"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    session_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["MySessionPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    session_signIn: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["SignInInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["SignedIn"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    session_signOutEverywhere: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ClosedSessions"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    session_signOut: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    session_closeOthers: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ClosedSessions"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    session_close: {
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
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    account_me: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Me"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    account_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["MePatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Me"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    account_changePassword: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["PasswordChangeInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Session"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    account_requestReset: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["ResetRequestInput"];
            };
        };
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    account_reset: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["PasswordResetInput"];
            };
        };
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    secondfactor_signIn: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["CodeSignInInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Session"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    secondfactor_stepUp: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["SecondFactorCodeInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Session"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    secondfactor_get: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["SecondFactor"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    secondfactor_setUp: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["TotpSetUpInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["TotpSetUp"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    secondfactor_remove: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["FactorChangeInput"];
            };
        };
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    secondfactor_confirm: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["TotpConfirmInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["TotpConfirmed"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    secondfactor_renewCodes: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["FactorChangeInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RecoveryCodes"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    passkeys_signInOptions: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PasskeyRequest"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    passkeys_signIn: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["PasskeySignInInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Session"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    passkeys_list: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PasskeyList"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    passkeys_add: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["PasskeyInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Passkey"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    passkeys_options: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["PasskeyOptionsInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PasskeyCreation"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    passkeys_remove: {
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
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    passkeys_rename: {
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
                "application/json": components["schemas"]["PasskeyPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Passkey"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    accesssettings_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["AccessSettings"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    accesssettings_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["AccessSettingsPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["AccessSettings"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    livesettings_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["LiveSettings"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    livesettings_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["LiveSettingsPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["LiveSettings"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    yard_list: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["YardList"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    yard_create: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["YardFileInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Yard"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    yard_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Yard"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    yard_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["YardPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Yard"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    yard_export: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["YardFileInput"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    yard_warnings: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["YardWarnings"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    yard_outdoor: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Outdoor"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    yard_importOutdoor: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["OutdoorInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Outdoor"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    people_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PersonPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    people_create: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["PersonInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Person"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    people_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Person"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    people_remove: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    people_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["PersonPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Person"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    people_endAccess: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    invitations_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["InvitationPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    invitations_invite: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["InvitationInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["NewInvitation"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    invitations_revoke: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    joining_preview: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["InvitationTokenInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["InvitationPreview"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    joining_accept: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["InvitationAcceptanceInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Joining"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    programkeys_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ProgramKeyPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    programkeys_create: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["ProgramKeyInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["NewProgramKey"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    programkeys_revoke: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    audit_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
                record?: "yard" | "skill" | "member" | "member-skill" | "weekly-shift" | "shift-exception" | "exception-shift" | "invitation" | "program-key" | "space" | "set-point" | "dust-reach" | "outdoor" | "tool" | "stock" | "barrier" | "barrier-block" | "slot-list" | "delivery" | "material" | "material-version" | "cure-table" | "fabric" | "reading" | "observation" | "procedure" | "boat" | "refit" | "part" | "part-layer" | "job" | "job-after" | "job-join" | "job-wait" | "task" | "task-crew" | "task-tool" | "task-link" | "task-choice" | "task-branch" | "branch-task" | "branch-link" | "claim" | "claim-member" | "plan-run" | "plan" | "published-plan" | "publishing" | "candidate" | "snag" | "snag-photo" | "change-order" | "proposal" | "rework" | "calendar-link";
                key?: string;
                member?: string;
                change?: "insert" | "update" | "delete";
                from?: string;
                to?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["AuditEntryPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    skills_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["SkillPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    skills_create: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["SkillInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Skill"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    skills_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Skill"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    skills_remove: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    skills_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["SkillPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Skill"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    spaces_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["SpacePage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    spaces_create: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["SpaceInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Space"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    spaces_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Space"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    spaces_remove: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    spaces_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["SpacePatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Space"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    tools_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ToolPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    tools_create: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["ToolInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Tool"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    tools_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Tool"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    tools_remove: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    tools_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["ToolPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Tool"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    stocks_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["StockPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    stocks_create: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["StockInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Stock"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    stocks_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Stock"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    stocks_remove: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    stocks_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["StockPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Stock"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    barriers_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["BarrierPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    barriers_create: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["BarrierInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Barrier"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    barriers_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Barrier"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    barriers_remove: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    barriers_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["BarrierPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Barrier"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    slotlists_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["SlotListPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    slotlists_create: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["SlotListInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["SlotList"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    slotlists_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["SlotList"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    slotlists_remove: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    slotlists_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["SlotListPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["SlotList"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    deliveries_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["DeliveryPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    deliveries_create: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["DeliveryInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Delivery"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    deliveries_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Delivery"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    deliveries_remove: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    deliveries_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["DeliveryPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Delivery"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    catalogue_classes: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["MaterialClassList"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    catalogue_class: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["MaterialClass"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    catalogue_fabrics: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["CatalogueFabricList"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    bonds_rules: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["BondRuleList"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    bonds_check: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["BondCheckInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["BondAnswer"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    bonds_surface: {
        parameters: {
            query?: {
                at?: string;
                material?: string;
                bonding?: "structural" | "cosmetic";
            };
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PartSurface"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    materials_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["MaterialPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    materials_create: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["MaterialInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Material"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    materials_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Material"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    materials_remove: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    materials_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["MaterialPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Material"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    materials_sheet: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["MaterialSheet"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    materials_versions: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["MaterialVersionList"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    fabrics_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["FabricPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    fabrics_create: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["FabricInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Fabric"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    fabrics_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Fabric"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    fabrics_remove: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    fabrics_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["FabricPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Fabric"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    readings_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
                space?: string;
                from?: string;
                until?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ReadingPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    readings_add: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["ReadingsInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ReadingList"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    readings_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Reading"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    readings_remove: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    observations_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
                material?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ObservationPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    observations_add: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["NewObservationInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Observation"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    observations_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Observation"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    observations_remove: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    observations_tackTest: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                taskId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["TackTestInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["TackTested"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    observations_calibration: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["MaterialCalibration"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    filmtimes_film: {
        parameters: {
            query: {
                space?: string;
                celsius?: number;
                laidFrom: string;
                laidUntil?: string;
            };
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["FilmTimes"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    filmtimes_latestStart: {
        parameters: {
            query: {
                space: string;
                milestone: "pot-life" | "open-time" | "gel" | "tacky-opens" | "tacky-closes" | "bond-opens" | "bond-closes" | "tack-free" | "dust-safe" | "handle" | "sandable" | "cured";
                by: string;
                minutes?: number;
            };
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["LatestStart"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    climate_hours: {
        parameters: {
            query: {
                from: string;
                until: string;
                material?: string;
            };
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["SpaceClimate"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    procedures_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ProcedurePage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    procedures_create: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["NewProcedureInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Procedure"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    procedures_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Procedure"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    procedures_getVersion: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
                version: number;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Procedure"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    procedures_preview: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["ProcedurePreviewInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ProcedurePreview"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    procedures_createVersion: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["ProcedureVersionInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Procedure"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    boats_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["BoatPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    boats_create: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["BoatInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Boat"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    boats_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Boat"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    boats_remove: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    boats_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["BoatPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Boat"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    boats_createRefit: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["RefitInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Refit"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    refits_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Refit"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    refits_remove: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    refits_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["RefitPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Refit"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    refits_createPart: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["PartInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Part"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    parts_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Part"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    parts_remove: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    parts_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["PartPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Part"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    parts_addJob: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["JobInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Job"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    jobs_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Job"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    jobs_remove: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    jobs_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["JobPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Job"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    events_follow: {
        parameters: {
            query?: never;
            header?: {
                /** @description Go on after this event. */
                "Last-Event-ID"?: string;
            };
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    planruns_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PlanRunPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    planruns_start: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["PlanRunInput"];
            };
        };
        responses: {
            /** @description Taken on */
            202: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PlanRun"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    planruns_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PlanRun"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    planruns_stop: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Taken on */
            202: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PlanRun"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    planruns_follow: {
        parameters: {
            query?: never;
            header?: {
                /** @description Go on after this event. */
                "Last-Event-ID"?: string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    plans_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PlanSummaryPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    plans_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Plan"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    plans_week: {
        parameters: {
            query?: {
                by?: "builder" | "space" | "boat";
                from?: string;
            };
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Week"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    plans_chains: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PlanChains"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    plans_publish: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PublishedPlan"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    explanations_whyNotEarlier: {
        parameters: {
            query?: {
                at?: string;
            };
            header?: never;
            path: {
                yardId: string;
                id: string;
                taskId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["WhyNotEarlier"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    explanations_whatShortens: {
        parameters: {
            query?: {
                refit?: string;
            };
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["WhatShortens"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    explanations_check: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PlanCheck"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    mixsheets_list: {
        parameters: {
            query?: {
                day?: string;
            };
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["MixSheets"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    mixsheets_ofTask: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
                taskId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["TaskMixSheet"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    mixsheets_shopping: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PlanShoppingList"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    publishedplan_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Plan"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    publishedplan_week: {
        parameters: {
            query?: {
                by?: "builder" | "space" | "boat";
                from?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Week"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    publishedplan_chains: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PlanChains"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    publishedplan_mixSheets: {
        parameters: {
            query?: {
                day?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["MixSheets"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    publishedplan_shopping: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PlanShoppingList"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    publishings_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PublishingPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    picture_picture: {
        parameters: {
            query?: {
                from?: string;
                days?: number;
            };
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PlanPicture"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    picture_published: {
        parameters: {
            query?: {
                from?: string;
                days?: number;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PlanPicture"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    placements_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
                taskId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["TaskOfPlan"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    placements_tryPlacement: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
                taskId: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["PlacementInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["TriedPlacement"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    candidates_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
                state?: "open" | "published" | "discarded" | "superseded";
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["CandidatePage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    candidates_ask: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Taken on */
            202: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ReplanRequest"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    candidates_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                planId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["CandidateView"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    candidates_discard: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                planId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Candidate"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    candidates_difference: {
        parameters: {
            query?: {
                from?: string;
            };
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PlanDifference"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    tasks_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["TaskPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    tasks_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Task"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    tasks_fix: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["TaskPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Task"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    tasks_failBatch: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                taskId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["ReasonInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Task"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    tasks_undo: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                taskId: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["MomentOfWorkInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Task"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    ready_ready: {
        parameters: {
            query?: {
                whose?: "mine" | "all";
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Ready"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    claims_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
                mine?: string;
                status?: "open" | "working" | "paused" | "finished" | "released" | "lapsed";
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ClaimPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    claims_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Claim"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    claims_claim: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                taskId: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["ClaimInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Claim"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    claims_join: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["CrewChangeInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Claim"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    claims_leave: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["CrewChangeInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Claim"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    claims_release: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["LeftInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Claim"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    claims_start: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["StartInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Claim"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    claims_pause: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["LeftInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Claim"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    claims_resume: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["MomentOfWorkInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Claim"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    claims_progress: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["ProgressInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Claim"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    claims_finish: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["MomentOfWorkInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Claim"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    claims_abandon: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["ReasonInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Claim"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    snags_kinds: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["SnagKinds"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    snags_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
                partId?: string;
                refitId?: string;
                state?: "open" | "proposed" | "accepted" | "settled" | "dismissed";
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["SnagPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    snags_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Snag"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    snags_update: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag that was read. */
                "If-Match": string;
            };
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["SnagPatch"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Snag"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    snags_raise: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["SnagInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Snag"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    snags_propose: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Taken on */
            202: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Snag"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    snags_accept: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["AcceptReworkInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Snag"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    snags_dismiss: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["SnagNoteInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Snag"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    snags_settle: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["SnagNoteInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Snag"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    snags_reopen: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["SnagNoteInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Snag"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    photos_add: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "image/jpeg": string;
                "image/png": string;
                "image/webp": string;
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["SnagPhoto"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    photos_get: {
        parameters: {
            query?: {
                size?: "whole" | "small";
            };
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    photos_remove: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    taskhistory_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["TaskHistory"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    alarms_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
                all?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["AlarmPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    alarms_follow: {
        parameters: {
            query?: never;
            header?: {
                /** @description Go on after this event. */
                "Last-Event-ID"?: string;
            };
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    alarms_shown: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["AlarmShown"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    alarms_acknowledge: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Alarm"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    push_key: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PushKey"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    push_list: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PushSubscriptionList"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    push_subscribe: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["PushSubscriptionInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PushSubscription"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    push_remove: {
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
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    changes_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
                state?: "asked" | "priced" | "accepted" | "declined" | "withdrawn";
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ChangePage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    changes_ask: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["ChangeInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Change"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    changes_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Change"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    changes_reprice: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Change"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    changes_accept: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["AcceptChangeInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Change"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    changes_decline: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["RefuseChangeInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Change"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    changes_withdraw: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: {
            content: {
                "application/json": components["schemas"]["RefuseChangeInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Change"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    reports_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
                outcome?: "done" | "held" | "dismissed";
                member?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ReportPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    reports_send: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["ReportsInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["TakenReports"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    reports_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Report"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    reports_settle: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["SettleReportInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Report"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    myboats_list: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["MyBoats"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    myboats_follow: {
        parameters: {
            query?: never;
            header?: {
                /** @description Go on after this event. */
                "Last-Event-ID"?: string;
            };
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    myboats_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["MyBoat"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    myboats_history: {
        parameters: {
            query?: {
                since?: string;
            };
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["MyBoatHistory"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    calendars_list: {
        parameters: {
            query?: {
                first?: number;
                after?: string;
            };
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["CalendarPage"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    calendars_create: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["CalendarInput"];
            };
        };
        responses: {
            /** @description Made */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["NewCalendar"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    calendars_revoke: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    calendarfeed_read: {
        parameters: {
            query?: never;
            header?: {
                /** @description The ETag that was read. */
                "If-None-Match"?: string;
            };
            path: {
                secret: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/calendar": string;
                };
            };
            /** @description As it was read */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    productivity_get: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Productivity"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    productivity_apply: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                yardId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["ProductivityInput"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ProductivityApplied"];
                };
            };
            /** @description A problem (RFC 9457) */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
}
