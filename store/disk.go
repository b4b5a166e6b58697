package store

import (
	"errors"
	"io/fs"
	"syscall"

	"github.com/jackc/pgx/v5/pgconn"
	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// ErrDisk is what every *DiskError is, for errors.Is.
var ErrDisk = errors.New("the disk took nothing")

// DiskFault names why a disk took nothing.
type DiskFault string

// The faults.
const (
	DiskFull     DiskFault = "full"
	DiskReadOnly DiskFault = "read-only"
	DiskFailing  DiskFault = "failing"
	DiskAway     DiskFault = "away"
	DiskBusy     DiskFault = "busy"
)

// DiskError says that nothing of a change was kept, because of the disk or the
// database server. What was kept before is still there, and the same change may
// be tried again.
type DiskError struct {
	Fault DiskFault
	Err   error // for the log only
}

// Error returns one sentence for the teacher, without the error beneath.
func (e *DiskError) Error() string {
	switch e.Fault {
	case DiskFull:
		return "nothing was kept: the disk is full, so make room on it and try again"
	case DiskReadOnly:
		return "nothing was kept: the data file may not be written, so check who owns it and its folder"
	case DiskAway:
		return "nothing was kept: the database does not answer, so check that it runs"
	case DiskBusy:
		return "nothing was kept: another program holds the data file, so close it and try again"
	default:
		return "nothing was kept: the disk reports a fault, so copy the data folder to another disk"
	}
}

// Unwrap returns the error of the database.
func (e *DiskError) Unwrap() error { return e.Err }

// Is reports whether target is ErrDisk.
func (e *DiskError) Is(target error) bool { return target == ErrDisk }

// diskError makes a *DiskError of an error that comes from a disk, and returns
// any other as it is.
func diskError(err error) error {
	var known *DiskError
	if err == nil || errors.As(err, &known) {
		return err
	}
	if fault := diskFault(err); fault != "" {
		return &DiskError{fault, err}
	}
	return err
}

func diskFault(err error) DiskFault {
	var file *sqlite.Error
	var server *pgconn.PgError
	var connecting *pgconn.ConnectError
	switch {
	case errors.As(err, &file):
		return fileFault(file.Code() & 0xff)
	case errors.As(err, &server):
		return serverFault(server.Code)
	case errors.As(err, &connecting):
		return DiskAway
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		return DiskFull
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return DiskReadOnly
	}
	return ""
}

func fileFault(code int) DiskFault {
	switch code {
	case sqlite3.SQLITE_FULL:
		return DiskFull
	case sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM:
		return DiskReadOnly
	case sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED:
		return DiskBusy
	case sqlite3.SQLITE_IOERR, sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB:
		return DiskFailing
	}
	return ""
}

// serverFault reads the codes of PostgreSQL, which its manual lists in the
// appendix on error codes.
func serverFault(code string) DiskFault {
	switch code {
	case "53100": // disk_full
		return DiskFull
	case "25006": // read_only_sql_transaction
		return DiskReadOnly
	case "58030", "XX001", "XX002": // io_error, data_corrupted, index_corrupted
		return DiskFailing
	case "57P01", "57P02", "57P03", "53300": // shutting down, crashed, starting, too many connections
		return DiskAway
	}
	return ""
}
