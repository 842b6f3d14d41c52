@echo off
rem Runs Phrase Census from its unpacked archive on Windows. launch.sh says why each option is there.
rem Loaded classes are not archived here.
setlocal EnableExtensions DisableDelayedExpansion
set "program=%~dp0..\program"

set "java=java"
if defined JAVA_HOME if exist "%JAVA_HOME%\bin\java.exe" set "java=%JAVA_HOME%\bin\java.exe"
"%java%" -version >nul 2>&1
if errorlevel 1 (
  echo Cannot run: there is no Java on this computer. Install Java 17 or newer, or let JAVA_HOME name one.>&2
  exit /b 1
)
set "release="
for /f "tokens=3" %%V in ('""%java%" -version 2^>^&1 ^| findstr version"') do if not defined release set "release=%%~V"
for /f "tokens=1 delims=.-+" %%V in ("%release%") do set "release=%%V"
if %release% LSS 17 (
  echo Cannot run: the Java here is older than 17. Install Java 17 or newer, or let JAVA_HOME name one.>&2
  exit /b 1
)

set "log=off"
set "small=yes"
:next
if "%~1"=="" goto start
if "%~1"=="--debug" set "log=warn"
set "place=%~1"
if /i "%~x1"==".yaml" set "place=%~dp1."
if /i "%~x1"==".yml" set "place=%~dp1."
if not exist "%place%\" goto weighed
for /f %%N in ('dir /s /b /a-d "%place%\*.musicxml" "%place%\*.xml" "%place%\*.mxl" 2^>nul ^| find /c /v ""') do if %%N GEQ 3000 set "small=no"
for /f "delims=" %%Z in ('dir /s /b /a-d "%place%\*.zip" 2^>nul') do if %%~zZ GTR 10485760 set "small=no"
:weighed
shift
goto next

:start
set "speed=-XX:+UseParallelGC"
if "%small%"=="yes" set "speed=-XX:TieredStopAtLevel=1 -XX:+UseSerialGC"
set "further="
if defined PHRASE_CENSUS_LIBRARIES set "further=;%PHRASE_CENSUS_LIBRARIES%\*"

rem The program writes UTF-8.
for /f "tokens=2 delims=:." %%C in ('chcp') do set "page=%%C"
chcp 65001 >nul
"%java%" "@%program%\java.options" -Dphrasecensus.log=%log% %speed% %JAVA_OPTS% -cp "%program%\phrase-census.jar%further%" phrasecensus.cli.Main %*
set "code=%errorlevel%"
chcp %page% >nul
exit /b %code%
