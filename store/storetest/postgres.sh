#!/bin/sh
# Runs a private PostgreSQL server for the tests of the store.
#
#   postgres.sh start [FOLDER]   starts it and prints its URL
#   postgres.sh stop  [FOLDER]   stops it and deletes its data
#   postgres.sh run COMMAND...   starts one, runs the command with its URL in
#                                PEGWRIGHT_TEST_POSTGRES, stops it, and exits
#                                as the command did
#
# It listens on 127.0.0.1 alone, on a free port, keeps its data in a folder of
# its own, and does not wait for the disk: it is for tests and nothing else.
# Needs PostgreSQL's programs (apt-get install postgresql). Run as root it
# becomes the user postgres, since the server refuses to run as root.
set -eu

fail() {
	echo "postgres.sh: $1" >&2
	exit 1
}

programs() {
	for d in "${PGBIN:-}" /usr/lib/postgresql/*/bin /usr/pgsql-*/bin /opt/homebrew/opt/postgresql*/bin /usr/local/bin /usr/bin; do
		if [ -n "$d" ] && [ -x "$d/initdb" ] && [ -x "$d/pg_ctl" ]; then
			found=$d
		fi
		if [ -n "$d" ] && [ "$d" = "${PGBIN:-}" ] && [ -n "${found:-}" ]; then
			break
		fi
	done
	[ -n "${found:-}" ] || fail "no PostgreSQL on this machine: apt-get install postgresql"
	echo "$found"
}

as_server() {
	if [ "$(id -u)" = 0 ]; then
		runuser -u postgres -- "$@"
	else
		"$@"
	fi
}

start() {
	bin=$(programs)
	mkdir -p "$1"
	if [ "$(id -u)" = 0 ]; then
		chown postgres "$1"
	fi
	cd "$1"
	as_server "$bin/initdb" --pgdata="$1/data" --username=pegwright --auth=trust --encoding=UTF8 --locale=C --no-sync >"$1.log" 2>&1 ||
		fail "initdb failed: $(cat "$1.log")"
	for try in 1 2 3 4 5 6 7 8; do
		port=$((20000 + ($$ * 7 + try * 1009 + $(date +%s)) % 12000))
		if as_server "$bin/pg_ctl" --pgdata="$1/data" --log="$1/data/server.log" --wait --timeout=60 --silent \
			--options="-c listen_addresses=127.0.0.1 -c port=$port -c unix_socket_directories='' -c fsync=off -c full_page_writes=off -c max_connections=300" start >"$1.log" 2>&1; then
			echo "postgres://pegwright@127.0.0.1:$port/postgres?sslmode=disable"
			return
		fi
	done
	fail "the server does not start: $(cat "$1.log" "$1/data/server.log")"
}

stop() {
	if [ -d "$1/data" ]; then
		bin=$(programs)
		cd "$1"
		as_server "$bin/pg_ctl" --pgdata="$1/data" --mode=immediate --silent stop >/dev/null 2>&1 || true
		cd /
	fi
	rm -rf "${1:?}" "$1.log"
}

folder=${TMPDIR:-/tmp}/pegwright-postgres
case "${1:-}" in
start) start "${2:-$folder}" ;;
stop) stop "${2:-$folder}" ;;
run)
	shift
	folder=$(mktemp -d "${TMPDIR:-/tmp}/pegwright-postgres.XXXXXX")
	trap 'stop "$folder"' EXIT
	trap 'exit 130' INT TERM
	url=$(start "$folder")
	status=0
	PEGWRIGHT_TEST_POSTGRES=$url "$@" || status=$?
	exit "$status"
	;;
*) fail "say start, stop or run COMMAND" ;;
esac
