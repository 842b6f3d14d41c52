# Starts Java with Phrase Census. Read by the launcher of a clone and by that of the archive, in any
# POSIX shell; those say where things are:
#   launcher   folder of this file and of java.options
#   program    folder of phrase-census.jar and lib/; loaded classes are kept there too
# shellcheck shell=sh disable=SC2154

cannot_run() {
  printf 'Cannot run: %s\n' "$1" >&2
  exit 1
}

# Shells name the number of processes by one letter or the other.
processes() { ulimit "-${1}u" $2 2>/dev/null || ulimit "-${1}p" $2 2>/dev/null; }

# What a shell allows: Spark and its threads need more than the least that some systems give.
allow_enough() {
  least_open_files=256
  if [ "$(ulimit -n)" != unlimited ] && [ "$(ulimit -n)" -lt 1024 ]; then
    ulimit -n "$(ulimit -Hn)" 2>/dev/null || ulimit -n 1024 2>/dev/null || true
    if [ "$(ulimit -n)" != unlimited ] && [ "$(ulimit -n)" -lt $least_open_files ]; then
      cannot_run "this shell allows $(ulimit -n) open files at once, and at least $least_open_files are needed. Allow more, as in 'ulimit -n 1024'."
    fi
  fi
  least_processes=200
  allowed=$(processes S '' || echo unlimited)
  if [ "$(id -u)" != 0 ] && [ "$allowed" != unlimited ] && [ "$allowed" -lt $least_processes ]; then
    processes S "$(processes H '')" || true
    allowed=$(processes S '')
    if [ "$allowed" != unlimited ] && [ "$allowed" -lt $least_processes ]; then
      cannot_run "this shell allows $allowed processes and threads at once, and at least $least_processes are needed. Allow more, as in 'ulimit -u 1000'."
    fi
  fi
}

# Sets java and java_version.
find_java() {
  java=java
  if [ -n "${JAVA_HOME:-}" ] && [ -x "$JAVA_HOME/bin/java" ]; then
    java="$JAVA_HOME/bin/java"
  fi
  command -v "$java" >/dev/null 2>&1 ||
    cannot_run "there is no Java on this computer. Install $needed_java 17 or newer, or let JAVA_HOME name one."
  java_version=$("$java" -version 2>&1) ||
    cannot_run "Java does not start. It says: $(printf '%s\n' "$java_version" | head -n 1)"
  release=$(printf '%s\n' "$java_version" |
    sed -nE 's/.* version "([0-9]+)(\.([0-9]+))?.*/\1 \3/p' | head -n 1)
  case "$release" in
    "1 "*) release=${release#1 } ;;
    *) release=${release%% *} ;;
  esac
  if [ -n "$release" ] && [ "$release" -lt 17 ]; then
    cannot_run "the Java here is version $release. Install $needed_java 17 or newer, or let JAVA_HOME name one."
  fi
}

# A child that ends when this script is told to: the shell alone would leave it running.
child=
interrupted=
pass_on() {
  interrupted=$1
  [ -z "$child" ] || kill -TERM "$child" 2>/dev/null || true
}
as_child() {
  trap 'pass_on 130' INT
  trap 'pass_on 143' TERM
  trap 'pass_on 129' HUP
  "$@" &
  child=$!
  while true; do
    ended=0
    wait "$child" || ended=$?
    kill -0 "$child" 2>/dev/null || break
  done
  child=
  trap - INT TERM HUP
  [ -z "$interrupted" ] || return "$interrupted"
  return "$ended"
}

# Java tells the system the names of files in the encoding of the locale, and that of C holds ASCII alone.
hold_all_names() {
  case "$(locale charmap 2>/dev/null)" in
    ANSI_X3.4-1968 | US-ASCII | 646)
      for wide in C.UTF-8 C.utf8 en_US.UTF-8 en_US.utf8 "$(locale -a 2>/dev/null | grep -i 'utf-\{0,1\}8$' | head -n 1)"; do
        if [ -n "$wide" ] && [ "$(LC_ALL=$wide locale charmap 2>/dev/null)" = UTF-8 ]; then
          LC_ALL=$wide
          export LC_ALL
          break
        fi
      done
      ;;
  esac
}

# An archive of ten megabytes holds some thousand scores.
files_below() {
  find "$1" -type f \( -name '*.musicxml' -o -name '*.xml' -o -name '*.mxl' \
    -o -name '*.zip' -size +20480 -exec awk 'BEGIN { for (i = 0; i < 3000; i++) print i }' \; \) \
    -print 2>/dev/null | head -n 3000 | wc -l
}

# The archive of loaded classes is whole.
sum_of() { cksum <"$1" 2>/dev/null || true; }
whole() { [ -f "$1" ] && [ -f "$1.sum" ] && [ "$(sum_of "$1")" = "$(cat "$1.sum" 2>/dev/null)" ]; }
# In kilobytes: an archive takes ninety megabytes.
room_for_archive() {
  free=$(df -Pk "$program" 2>/dev/null | awk 'NR == 2 { print $4 }')
  [ -n "$free" ] && [ "$free" -ge 200000 ]
}

# Runs the program and ends with its exit code.
run_program() {
  hold_all_names
  jar="$program/phrase-census.jar"
  command=${1:-}
  log_level=off
  small=yes
  for argument in "$@"; do
    [ "$argument" != --debug ] || log_level=warn
    case "$argument" in
      *.yaml | *.yml) argument=$(dirname -- "$argument") ;;
    esac
    if [ -e "$argument" ] && [ "$(files_below "$argument")" -ge 3000 ]; then
      small=no
    fi
  done

  # Connectors of further file systems, as for s3a:, lie in a folder of the user's.
  set -- -cp "$jar${PHRASE_CENSUS_LIBRARIES:+:$PHRASE_CENSUS_LIBRARIES/*}" phrasecensus.cli.Main "$@"
  # shellcheck disable=SC2086 # JAVA_OPTS is a list of options
  set -- ${JAVA_OPTS:-} "$@"

  # Loaded classes are archived by the first study and shared by every later run; the archive belongs
  # to one jar in one place and one Java, and nothing depends on it but time. Java would crash on a
  # damaged one, so that its checksum is kept beside it.
  jar_now=$(stat -c '%Y %s' "$jar" 2>/dev/null || stat -f '%m %z' "$jar" 2>/dev/null || true)
  archive="$program/classes-$(printf '%s\n' "$java_version $jar_now $jar" | cksum | tr ' ' '-').jsa"
  making=no
  if whole "$archive"; then
    set -- "-XX:SharedArchiveFile=$archive" -Xlog:cds=off -Xlog:cds+dynamic=off "$@"
  elif [ "$command" = study ] && [ -z "${PHRASE_CENSUS_LIBRARIES:-}" ] && [ -w "$program" ] && room_for_archive; then
    making=yes
    rm -f "$program"/classes-*.jsa "$program"/classes-*.jsa.sum
    made="$archive.new-$$"
    set -- "-XX:ArchiveClassesAtExit=$made" -Xlog:cds=off -Xlog:cds+dynamic=off \
      "-Dphrasecensus.exit=$made.code" "$@"
  fi

  # Most of a small study's time is starting up. Below a few thousand files the quick compiler alone
  # is faster; above, the optimising one pays.
  if [ "$small" = yes ]; then
    set -- -XX:TieredStopAtLevel=1 -XX:+UseSerialGC "$@"
  else
    set -- -XX:+UseParallelGC "$@"
  fi
  [ ! -t 2 ] || set -- -Dphrasecensus.terminal=true "$@"
  set -- "@$launcher/java.options" "-Dphrasecensus.log=$log_level" "$@"

  if [ "$making" = no ]; then
    exec "$java" "$@"
  fi
  code=0
  as_child "$java" "$@" || code=$?
  # Where the archive cannot be written, Java ends with a code of its own.
  said=$(cat "$made.code" 2>/dev/null || true)
  rm -f "$made.code"
  if [ "$code" = 0 ] && [ -s "$made" ]; then
    { sum_of "$made" >"$archive.sum" 2>/dev/null && mv -f "$made" "$archive"; } || rm -f "$archive.sum"
  fi
  rm -f "$made"
  [ -z "$said" ] || [ -n "$interrupted" ] || code=$said
  exit "$code"
}
