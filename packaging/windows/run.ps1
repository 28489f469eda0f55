# Set everything up, then start the program: the window, or with arguments a command of `counter`.
#   powershell -ExecutionPolicy Bypass -File packaging\windows\run.ps1 read CFQ18W/G24q/835
# Untried: written with care, never run on a Windows machine.
. (Join-Path $PSScriptRoot 'set-up.ps1')
Initialize-Environment 'run' 'requirements.lock'
& $python -P -m counter @args
exit $LASTEXITCODE
