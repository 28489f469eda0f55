; The installer for Windows, for Inno Setup 6.3 or newer. bundle.ps1 hands in the version. For one user by default, so that no
; administrator is needed at a till.
; Untried: written with care, never run on a Windows machine.
#ifndef Version
  #error Start packaging\windows\bundle.ps1, which hands in the version
#endif
[Setup]
AppId={{6B0D4B51-6E0F-4C62-9C55-2A7E0B1D5C33}
AppName=Lamp counter
AppVersion={#Version}
DefaultDirName={autopf}\Lamp counter
DefaultGroupName=Lamp counter
PrivilegesRequired=lowest
PrivilegesRequiredOverridesAllowed=dialog
LicenseFile=..\LICENSE
OutputDir=..\..\dist
OutputBaseFilename=lamp-counter-{#Version}-setup
ArchitecturesAllowed=x64compatible
ArchitecturesInstallIn64BitMode=x64compatible
; Windows 10, release 1809: the oldest that Qt asks for
MinVersion=10.0.17763
Compression=lzma2
SolidCompression=yes
WizardStyle=modern
[Files]
Source: "..\..\dist\lamp-counter\*"; DestDir: "{app}"; Flags: recursesubdirs ignoreversion
[InstallDelete]
; A library that a newer bundle no longer has would be loaded in its place
Type: filesandordirs; Name: "{app}\_internal"
[Icons]
Name: "{group}\Lamp counter"; Filename: "{app}\lamp-counter.exe"
Name: "{autodesktop}\Lamp counter"; Filename: "{app}\lamp-counter.exe"; Tasks: desktop
[Tasks]
Name: desktop; Description: "An icon on the desktop"
; What users make lies under their own data folder and stays when the program is removed.
