# Make the bundle dist\lamp-counter, and an installer of it where Inno Setup's compiler is on the PATH.
# Untried: written with care, never run on a Windows machine.
. (Join-Path $PSScriptRoot 'set-up.ps1')
Initialize-Environment 'bundle' 'requirements-bundle.lock'
Set-Location $root
& $python -P -m PyInstaller --noconfirm --log-level WARN --workpath build\bundle --distpath dist packaging\lamp-counter.spec
if ($LASTEXITCODE -ne 0) { Stop-With 1 'The bundle could not be made; the message is above.' }
$version = (& dist\lamp-counter\lamp-counter.exe --version | Select-Object -First 1)
if (-not $version) { Stop-With 1 'The bundle does not start.' }
if (Get-Command iscc -ErrorAction SilentlyContinue) {
    & iscc "/DVersion=$version" packaging\windows\lamp-counter.iss
    exit $LASTEXITCODE
}
Write-Host 'dist\lamp-counter is ready. For an installer, put iscc (Inno Setup 6) on the PATH and start this again.'
