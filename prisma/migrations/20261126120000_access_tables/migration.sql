-- Sign-in, invitations, program keys, the audit: tables and what their rows must keep. Who sees
-- which row is in the migrations after this one.

-- AlterTable
ALTER TABLE "account" ADD COLUMN     "email_proved_at" TIMESTAMPTZ(3);

-- AlterTable
ALTER TABLE "session" ADD COLUMN     "agent" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "id" UUID NOT NULL DEFAULT gen_random_uuid(),
ADD COLUMN     "second_factor_at" TIMESTAMPTZ(3);

-- AlterTable
ALTER TABLE "yard" ADD COLUMN     "owners_see_crew" BOOLEAN NOT NULL DEFAULT false,
ADD COLUMN     "second_factor_required" BOOLEAN NOT NULL DEFAULT false;

-- CreateTable
CREATE TABLE "invitation" (
    "yard_id" TEXT NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "member_id" TEXT NOT NULL,
    "token_hash" BYTEA NOT NULL,
    "email" TEXT,
    "invited_by_id" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "accepted_at" TIMESTAMPTZ(3),
    "revoked_at" TIMESTAMPTZ(3),

    CONSTRAINT "invitation_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "program_key" (
    "yard_id" TEXT NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "member_id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "token_hash" BYTEA NOT NULL,
    "scopes" TEXT[],
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "last_used_at" TIMESTAMPTZ(3),
    "revoked_at" TIMESTAMPTZ(3),

    CONSTRAINT "program_key_pkey" PRIMARY KEY ("yard_id","id")
);

-- CreateTable
CREATE TABLE "audit" (
    "chain" TEXT NOT NULL,
    "number" BIGINT NOT NULL,
    "yard_id" TEXT,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "account_id" UUID,
    "member_id" TEXT,
    "change" TEXT NOT NULL,
    "record" TEXT NOT NULL,
    "key" JSONB NOT NULL,
    "before" JSONB,
    "after" JSONB,
    "hash" BYTEA NOT NULL,

    CONSTRAINT "audit_pkey" PRIMARY KEY ("chain","number")
);

-- CreateTable
CREATE TABLE "pending_sign_in" (
    "token_hash" BYTEA NOT NULL,
    "account_id" UUID NOT NULL,
    "agent" TEXT NOT NULL DEFAULT '',
    "attempts" INTEGER NOT NULL DEFAULT 0,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "pending_sign_in_pkey" PRIMARY KEY ("token_hash")
);

-- CreateTable
CREATE TABLE "password_reset" (
    "token_hash" BYTEA NOT NULL,
    "account_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "used_at" TIMESTAMPTZ(3),

    CONSTRAINT "password_reset_pkey" PRIMARY KEY ("token_hash")
);

-- CreateTable
CREATE TABLE "totp" (
    "account_id" UUID NOT NULL,
    "secret" BYTEA NOT NULL,
    "confirmed_at" TIMESTAMPTZ(3),
    "last_step" BIGINT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "totp_pkey" PRIMARY KEY ("account_id")
);

-- CreateTable
CREATE TABLE "recovery_code" (
    "account_id" UUID NOT NULL,
    "code_hash" BYTEA NOT NULL,
    "used_at" TIMESTAMPTZ(3),

    CONSTRAINT "recovery_code_pkey" PRIMARY KEY ("account_id","code_hash")
);

-- CreateTable
CREATE TABLE "passkey" (
    "id" TEXT NOT NULL,
    "account_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "public_key" BYTEA NOT NULL,
    "counter" BIGINT NOT NULL,
    "transports" TEXT[],
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "last_used_at" TIMESTAMPTZ(3),

    CONSTRAINT "passkey_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "passkey_challenge" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "account_id" UUID,
    "challenge" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "passkey_challenge_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "rate_limit" (
    "key" VARCHAR(255) NOT NULL,
    "points" INTEGER NOT NULL DEFAULT 0,
    "expire" BIGINT,

    CONSTRAINT "rate_limit_pkey" PRIMARY KEY ("key")
);

-- CreateIndex
CREATE UNIQUE INDEX "invitation_token_hash_key" ON "invitation"("token_hash");

-- CreateIndex
CREATE INDEX "invitation_yard_id_member_id_idx" ON "invitation"("yard_id", "member_id");

-- CreateIndex
CREATE INDEX "invitation_yard_id_invited_by_id_idx" ON "invitation"("yard_id", "invited_by_id");

-- CreateIndex
CREATE UNIQUE INDEX "program_key_token_hash_key" ON "program_key"("token_hash");

-- CreateIndex
CREATE INDEX "program_key_yard_id_member_id_idx" ON "program_key"("yard_id", "member_id");

-- CreateIndex
CREATE INDEX "audit_yard_id_record_idx" ON "audit"("yard_id", "record");

-- CreateIndex
CREATE INDEX "pending_sign_in_account_id_idx" ON "pending_sign_in"("account_id");

-- CreateIndex
CREATE INDEX "password_reset_account_id_idx" ON "password_reset"("account_id");

-- CreateIndex
CREATE INDEX "passkey_account_id_idx" ON "passkey"("account_id");

-- CreateIndex
CREATE INDEX "passkey_challenge_account_id_idx" ON "passkey_challenge"("account_id");

-- CreateIndex
CREATE INDEX "rate_limit_expire_idx" ON "rate_limit"("expire");

-- CreateIndex
CREATE UNIQUE INDEX "session_id_key" ON "session"("id");

-- AddForeignKey
ALTER TABLE "invitation" ADD CONSTRAINT "invitation_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invitation" ADD CONSTRAINT "invitation_yard_id_member_id_fkey" FOREIGN KEY ("yard_id", "member_id") REFERENCES "member"("yard_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invitation" ADD CONSTRAINT "invitation_yard_id_invited_by_id_fkey" FOREIGN KEY ("yard_id", "invited_by_id") REFERENCES "member"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "program_key" ADD CONSTRAINT "program_key_yard_id_fkey" FOREIGN KEY ("yard_id") REFERENCES "yard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "program_key" ADD CONSTRAINT "program_key_yard_id_member_id_fkey" FOREIGN KEY ("yard_id", "member_id") REFERENCES "member"("yard_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "pending_sign_in" ADD CONSTRAINT "pending_sign_in_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "password_reset" ADD CONSTRAINT "password_reset_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "totp" ADD CONSTRAINT "totp_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "recovery_code" ADD CONSTRAINT "recovery_code_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "passkey" ADD CONSTRAINT "passkey_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "passkey_challenge" ADD CONSTRAINT "passkey_challenge_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE pending_sign_in
  ADD CONSTRAINT pending_sign_in_token_sha256 CHECK (octet_length(token_hash) = 32),
  ADD CONSTRAINT pending_sign_in_span CHECK (expires_at > created_at),
  ADD CONSTRAINT pending_sign_in_attempts CHECK (attempts >= 0);
ALTER TABLE password_reset
  ADD CONSTRAINT password_reset_token_sha256 CHECK (octet_length(token_hash) = 32),
  ADD CONSTRAINT password_reset_span CHECK (expires_at > created_at);
ALTER TABLE recovery_code
  ADD CONSTRAINT recovery_code_sha256 CHECK (octet_length(code_hash) = 32);
ALTER TABLE passkey
  ADD CONSTRAINT passkey_counter CHECK (counter >= 0),
  ADD CONSTRAINT passkey_name CHECK (name <> '');
ALTER TABLE passkey_challenge
  ADD CONSTRAINT passkey_challenge_span CHECK (expires_at > created_at);
ALTER TABLE invitation
  ADD CONSTRAINT invitation_token_sha256 CHECK (octet_length(token_hash) = 32),
  ADD CONSTRAINT invitation_span CHECK (expires_at > created_at),
  ADD CONSTRAINT invitation_end CHECK (num_nonnulls(accepted_at, revoked_at) <= 1);
-- A fresh link takes the place of the one before.
CREATE UNIQUE INDEX invitation_one_open ON invitation (yard_id, member_id)
  WHERE accepted_at IS NULL AND revoked_at IS NULL;
ALTER TABLE program_key
  ADD CONSTRAINT program_key_token_sha256 CHECK (octet_length(token_hash) = 32),
  ADD CONSTRAINT program_key_span CHECK (expires_at > created_at),
  ADD CONSTRAINT program_key_name CHECK (name <> ''),
  ADD CONSTRAINT program_key_scopes
    CHECK (cardinality(scopes) > 0 AND scopes <@ ARRAY['read', 'work', 'manage']);
ALTER TABLE audit
  ADD CONSTRAINT audit_change CHECK (
    CASE change
      WHEN 'insert' THEN before IS NULL AND after IS NOT NULL
      WHEN 'update' THEN before IS NOT NULL AND after IS NOT NULL
      WHEN 'delete' THEN before IS NOT NULL AND after IS NULL
    END IS TRUE),
  ADD CONSTRAINT audit_chain CHECK (chain = coalesce(yard_id, '') AND number >= 1),
  ADD CONSTRAINT audit_hash_sha256 CHECK (octet_length(hash) = 32);
